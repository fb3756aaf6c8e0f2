package device

import (
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
)

// messages is what the page on the screen says about the last tap. It stays when the page is drawn again for another
// reason, until another page is opened.
type messages struct {
	flash  string
	undo   *view.Action
	alert  string
	unread bool // the alert was on no page yet
	form   bool // the page shows a refused form with what was typed: it is not drawn over
}

// page makes a page with its messages.
func (c *Core) page(path string, query form.Values) page.Reply {
	c.forgetWork()
	defer c.working(address.JobOf(path))()
	w := c.deps()
	w.Flash, w.Undo = c.messages.flash, c.messages.undo
	r := page.Get(w, path, query)
	c.drop()
	if c.messages.alert != "" {
		r.Frame.Alert = c.messages.alert
	}
	return r
}
