package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// asideRow draws a job that this phone could not open: what happened, what is safe, what to do.
func asideRow(r JobRow) g.Node {
	return h.Li(h.ID(domID("job", r.ID)), h.Class("split"),
		h.Div(h.Class("rowtext"),
			RowTitle(orElse(r.Title, "A job")),
			NoticeInRow(Changed, "care",
				"This job could not be opened on this phone, so it is set aside. Your other jobs work."),
			Small(asideSafe(r)+" Try again after an update, or ask the owner to set aside what spoils it.")),
		h.Div(g.If(r.Waiting > 0,
			ButtonLink(address.Export.Path(r.ID), Quiet, g.Attr("download"), g.Text("Save what waits"))),
			ButtonLink(address.Job.Path(r.ID), Quiet, g.Attr("data-server"), g.Text("Open on the server")),
			h.Button(h.Type("button"), h.Class("quiet"), h.Data("again", r.ID), g.Text("Try again"))))
}

func asideSafe(r JobRow) string {
	if r.Waiting == 0 {
		return "Nothing of yours waits in it."
	}
	return Many(r.Waiting, "change") + " of yours " + pick(r.Waiting == 1, "is", "are") + " kept here and still handed in."
}
