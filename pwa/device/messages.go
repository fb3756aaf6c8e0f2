package device

import (
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
)

// messages are the page's messages about the last tap. They stay until another page is opened.
type messages struct {
	flash  string
	undo   *view.Action
	alert  string
	unread bool // no page has shown them yet
	form   bool // the page shows a refused form, so its body is not redrawn
}

// page draws a page with its messages.
func (c *Core) page(path string, query form.Values) page.Reply {
	c.forgetWork()
	defer c.working(address.JobOf(path))()
	w := c.deps()
	w.Flash, w.Undo = c.messages.flash, c.messages.undo
	r := page.Get(w, path, query)
	c.dropTask()
	if c.messages.alert != "" {
		r.Frame.Alert = c.messages.alert
	}
	return r
}
