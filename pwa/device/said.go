package device

import (
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
)

// said is what the page on the screen says of the last tap. It stays there when the page is drawn again for another
// reason, until somebody goes on.
type said struct {
	flash  string
	undo   *view.Deed
	alert  string
	unread bool // the alert was on no page yet
	form   bool // a form that may not stand as it is, with what was typed: it is not drawn over
}

// page makes a page, with what is to be read on it.
func (c *Core) page(path string, query form.Values) page.Reply {
	c.forgetWork()
	defer c.working(address.JobOf(path))()
	w := c.world()
	w.Flash, w.Undo = c.said.flash, c.said.undo
	r := page.Get(w, path, query)
	c.drop()
	if c.said.alert != "" {
		r.Frame.Alert = c.said.alert
	}
	return r
}
