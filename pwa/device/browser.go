package device

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/pwa/view"
)

// browser is what the page says about the browser it runs in.
type browser struct {
	platform  view.Platform
	installed bool
	app       string // "kept", "none", "refused", or "" while the service worker has yet to store the app
	kept      bool   // the storage is promised not to be evicted
	bytes     int64  // stored
}

// keyNoInstall is the key that says that nobody wants to be offered to install the app.
const keyNoInstall = "no-install"

// onBrowser takes what the page says about the browser.
func (c *Core) onBrowser(facts [][2]string) {
	named := map[string]string{}
	for _, f := range facts {
		named[f[0]] = f[1]
	}
	touch, _ := strconv.Atoi(named["touch"]) // 0: not known
	bytes, _ := strconv.ParseInt(named["bytes"], 10, 64)
	b := browser{platform: view.PlatformOf(named["agent"], touch), installed: named["installed"] == "yes",
		app: named["app"], kept: named["kept"] == "yes", bytes: bytes}
	if b == c.browser {
		return
	}
	c.browser, c.pending = b, redrawPage
}

// describeBrowser adds to the state of the phone what follows from the browser.
func (c *Core) describeBrowser(d *view.Device) {
	b := c.browser
	if b == (browser{}) { // the page has not said yet
		return
	}
	d.Platform, d.Installed, d.Offline = b.platform, b.installed, c.offlineState()
	d.Install = b.platform != "" && !b.installed && !c.noInstall && !c.OverHTTP && b.app == "kept" &&
		d.Waiting+d.Unposted == 0 && d.Closed == ""
}

// offlineState reports whether the job on the screen can be worked on without signal.
func (c *Core) offlineState() view.Readiness {
	switch {
	case c.OverHTTP:
		return view.OfflineHTTP
	case c.browser.app == "none", c.browser.app == "refused":
		return view.OfflineRefused
	case c.unwritten != nil:
		return view.OfflineUnkept
	case c.browser.app != "kept" || !c.stored(c.jobHere()):
		return view.OfflineComing
	}
	return view.OfflineReady
}

// stored reports whether all of a job that the server is known to hold is on this phone. A job made here is.
func (c *Core) stored(id string) bool {
	logs := []string{id}
	if c.me.Role == job.Owner {
		logs = append(logs, id+sync.OwnSuffix)
	}
	for _, log := range logs {
		s := c.phone.Status(log)
		if id != "" && !c.created[id] && (s.Shared == 0 || s.Seq < s.Head || c.differs[log]) {
			return false
		}
	}
	return true
}
