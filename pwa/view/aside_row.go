package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// asideRow draws a job that this phone could not open. It says what is safe and what to do.
func asideRow(r JobRow) g.Node {
	return SplitRow(domID("job", r.ID), []g.Node{
		RowTitle(orElse(r.Title, "A job")),
		NoticeInRow(Changed, "care", "This phone can’t open this job. Your other jobs work."),
		Small(asideSafe(r) + " Try again after an update, or ask the owner to repair it under Share."),
	},
		h.Div(g.If(r.Waiting > 0,
			ButtonLink(address.Export.Path(r.ID), Quiet, g.Attr("download"), g.Text("Save unsent changes"))),
			ButtonLink(address.Job.Path(r.ID), Quiet, g.Attr("data-server"), g.Text("Open on the server")),
			Button(Quiet, h.Data("again", r.ID), g.Text("Try again"))))
}

func asideSafe(r JobRow) string {
	if r.Waiting == 0 {
		return "All you did in it is shared."
	}
	return Many(r.Waiting, "change") + " of yours will still be shared."
}
