package serve

import (
	"strings"

	"garlandry/app/sync"
	"garlandry/pwa/address"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"
)

// Limits of a request's body in bytes.
const (
	formBytes = 5 << 20   // an imported job file is a form
	crewBytes = 256 << 10 // only the owner imports files; a note has up to 4,000 characters
	joinBytes = 4 << 10
)

// compressFrom is the smallest answer in bytes that is compressed. Pages, answers to forms and sync answers are: they
// hold no token or code, whose length a foreign page could measure beside a text of its choice. The pages that show
// such a secret, and the event stream, are sent as they are.
const compressFrom = 1000

// routes registers every address. All others are pages.
func (s *Server) routes(e *echo.Echo, joins, syncs, forms, clocks *limiter) {
	e.Use(s.accessLog, s.headers, recovered(s.Log), s.oneHost)
	e.GET("/healthz", s.health, limited(forms, byAddress))
	e.GET("/robots.txt", s.robots)
	e.GET("/favicon.ico", s.favicon)
	e.GET("/a/*", s.asset)
	e.GET("/sw.js", s.serviceWorker)
	e.GET("/manifest.webmanifest", s.manifest, s.known, limited(forms, byVisitor))
	e.GET(address.Shell.Route(), s.shellPage)

	e.GET(address.Join.Route(), s.joinPage, s.known)
	e.POST(address.Join.Route(), s.join, bodyLimit(joinBytes), s.sameSite, limited(joins, byAddress), s.known)
	e.GET(address.JoinOpen.Route(), s.askInstalled, limited(joins, byAddress), s.known)
	e.POST(address.JoinOpen.Route(), s.openInstalled, bodyLimit(joinBytes), s.sameSite, limited(joins, byAddress),
		s.known)
	e.GET(address.JoinTyped.Route(), s.scanPage, s.known)
	e.POST(address.JoinTyped.Route(), s.joinTyped, bodyLimit(joinBytes), s.sameSite, limited(joins, byAddress), s.known)
	e.GET(address.Scan.Route(), s.scanPage, s.known)
	s.routesOfDevices(e, forms)
	e.POST(address.SignOut.Route(), s.signOut, bodyLimit(joinBytes), s.sameSite, s.known, limited(forms, byVisitor))
	e.GET(address.Out.Route(), s.outPage)
	e.GET(address.OutLater.Route(), s.outPage)

	compress := middleware.GzipWithConfig(middleware.GzipConfig{MinLength: compressFrom})
	e.GET(address.ClientPage.Route(), s.clientPage, s.clientHeaders, compress)
	api := e.Group(address.API, s.sameSite, s.member)
	api.GET(below(address.API, address.Me), s.me, limited(syncs, bySession))
	api.POST(below(address.API, address.SyncAll), s.exchangeTogether(syncs), onlyJSON, bodyLimit(sync.MaxBatchBytes),
		compress)
	api.POST(below(address.API, address.Sync), s.exchange, onlyJSON, bodyLimit(sync.MaxBytes), limited(syncs, bySession),
		compress)
	api.POST(below(address.API, address.SyncOwn), s.exchangeOwn, onlyJSON, bodyLimit(sync.MaxBytes),
		limited(syncs, bySession), compress)
	api.GET(below(address.API, address.Events), s.events, limited(syncs, bySession))
	api.Any("/*", func(echo.Context) error { return errNotFound })

	s.routesOfSharing(e, forms)
	s.routesOfPhotos(e, syncs, forms)
	s.routesOfDeletion(e, forms)
	e.GET(address.Security.Route(), s.securityPage, s.member, s.owner, limited(forms, bySession))
	e.GET(address.Calendar.Route(), s.calendar, s.member, s.owner, limited(clocks, bySession))
	e.GET(address.Clock.Route(), s.page, s.known, limited(clocks, byVisitor), compress)
	if s.Gallery {
		e.GET(address.Gallery.Route(), s.gallery)
		e.GET(address.GalleryPage.Route(), s.gallery)
	}
	e.GET("/*", s.page, s.known, compress)
	e.POST("/*", s.form, bodyLimit(formBytes), s.sameSite, s.member, bodyLimitOfOthers(crewBytes),
		limited(forms, bySession), compress)
}

// routesOfSharing registers the pages on which the owner lets others in.
func (s *Server) routesOfSharing(e *echo.Echo, forms *limiter) {
	root := address.Share.Route()
	share := e.Group(root, bodyLimit(joinBytes), s.sameSite, s.member, s.owner, limited(forms, bySession))
	share.GET("", s.sharePage)
	share.POST(below(root, address.NewLink), s.createLink)
	share.POST(below(root, address.EndLink), s.endLink)
	share.POST(below(root, address.NewClient), s.createClientLink)
	share.POST(below(root, address.EndClient), s.endClientLink)
	share.POST(below(root, address.LinkRoom), s.setLinkAside)
	share.POST(below(root, address.KeepHeld), s.keepHeld)
	share.POST(below(root, address.DropHeld), s.dropHeld)
	share.POST(below(root, address.OwnerLink), s.createInvite)
	share.POST(below(root, address.EndDevice), s.endDevice)
	share.GET(below(root, address.Aside), s.asidePage)
	share.POST(below(root, address.Aside), s.setAside)
}

// routesOfDevices registers the pages on which a person sees their devices and gets into the installed app.
func (s *Server) routesOfDevices(e *echo.Echo, forms *limiter) {
	e.GET(address.Devices.Route(), s.devicesPage, s.member, limited(forms, bySession))
	for page, act := range map[address.Page]echo.HandlerFunc{address.AppCode: s.makeTyped,
		address.NameDevice: s.nameDevice} {
		e.GET(page.Route(), s.toDevices)
		e.POST(page.Route(), act, bodyLimit(joinBytes), s.sameSite, s.member, limited(forms, bySession))
	}
	e.POST(address.EndOwn.Route(), s.endDevice, bodyLimit(joinBytes), s.sameSite, s.member, s.owner,
		limited(forms, bySession))
}

// below returns the route of a page relative to its group.
func below(root string, p address.Page) string { return strings.TrimPrefix(p.Route(), root) }
