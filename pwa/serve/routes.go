package serve

import (
	"garlandry/app/sync"
	"garlandry/pwa/shell"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"
)

// Limits of a request's body.
const (
	formBytes = 5 << 20   // an imported job file is a form
	crewBytes = 256 << 10 // nobody but the owner imports; a note has up to 4,000 characters
	joinBytes = 4 << 10
)

// routes lists every address. What is not here is a page.
func (s *Server) routes(e *echo.Echo, joins, syncs, forms, clocks *limiter) {
	e.Use(s.accessLog, s.headers, recovered(s.Log), s.oneHost)
	e.GET("/healthz", s.health, limited(forms, byAddress))
	e.GET("/robots.txt", s.robots)
	e.GET("/favicon.ico", s.favicon)
	e.GET("/a/*", s.asset)
	e.GET("/sw.js", s.serviceWorker)
	e.GET("/manifest.webmanifest", s.manifest, s.known, limited(forms, byVisitor))
	e.GET(shell.ShellPath, s.shellPage)

	e.GET("/j", s.joinPage, s.known)
	e.POST("/j", s.join, sized(joinBytes), sameSite, limited(joins, byAddress), s.known)
	e.GET("/j/open", s.askInstalled, limited(joins, byAddress), s.known)
	e.POST("/j/open", s.openInstalled, sized(joinBytes), sameSite, limited(joins, byAddress), s.known)
	e.GET("/scan", s.scanPage, s.known)
	e.POST(view.LeavePath, s.signOut, sized(joinBytes), sameSite, s.known, limited(forms, byVisitor))
	e.GET(shell.OutPath, s.outPage)
	e.GET(shell.LaterPath, s.outPage)

	api := e.Group("/api/v1", sameSite, s.member)
	api.GET("/me", s.me, limited(syncs, bySession))
	api.POST("/sync", s.exchangeTogether(syncs), onlyJSON, sized(sync.MaxBatchBytes))
	api.POST("/jobs/:job/sync", s.exchange, onlyJSON, sized(sync.MaxBytes), limited(syncs, bySession))
	api.POST("/jobs/:job/own/sync", s.exchangeOwn, onlyJSON, sized(sync.MaxBytes), limited(syncs, bySession))
	api.GET("/jobs/:job/events", s.events, limited(syncs, bySession))
	api.Any("/*", func(echo.Context) error { return errNotFound })

	share := e.Group("/jobs/:job/share", sized(joinBytes), sameSite, s.member, s.owner, limited(forms, bySession))
	share.GET("", s.sharePage)
	share.POST("/new", s.createLink)
	share.POST("/end", s.endLink)
	share.POST("/room", s.setLinkAside)
	share.POST("/keep", s.keepHeld)
	share.POST("/drop", s.dropHeld)
	share.POST("/owner", s.createInvite)
	share.POST("/device", s.endDevice)
	share.GET("/aside", s.asidePage)
	share.POST("/aside", s.setAside)

	e.GET("/security", s.securityPage, s.member, s.owner, limited(forms, bySession))
	e.GET("/jobs/:job/calendar.ics", s.calendar, s.member, s.owner, limited(clocks, bySession))
	e.GET("/jobs/:job/clock", s.page, s.known, limited(clocks, byVisitor), middleware.Gzip())
	if s.Gallery {
		e.GET("/dev/gallery", s.gallery)
		e.GET("/dev/gallery/*", s.gallery)
	}
	compress := middleware.Gzip()
	e.GET("/*", s.page, s.known, compress)
	e.POST("/*", s.form, sized(formBytes), sameSite, s.member, ownersSize(sized(crewBytes)), limited(forms, bySession))
}
