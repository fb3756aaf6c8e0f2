package view

import g "maragu.dev/gomponents"

// asideRow draws a job that this phone could not open: what happened, what is safe, what to do.
func asideRow(r JobRow) g.Node {
	return html(`<li id="$" class="split">
		<div class="rowtext"><span class="rowtitle">$</span>
			<span class="delta">{care}This job could not be opened on this phone, so it is set aside. Your other jobs work.</span>
			<span class="soft">$ Try again after an update, or ask the owner to set aside what spoils it.</span></div>
		<div>{}
			<a class="button quiet" href="/jobs/$" data-server>Open on the server</a>
			<button type="button" class="quiet" data-again="$">Try again</button></div></li>`,
		texts{domID("job", r.ID), orElse(r.Title, "A job"), asideSafe(r), r.ID, r.ID},
		g.If(r.Waiting > 0, html(`<a class="button quiet" href="/jobs/$/export" download>Save what waits</a>`, texts{r.ID})))
}

func asideSafe(r JobRow) string {
	if r.Waiting == 0 {
		return "Nothing of yours waits in it."
	}
	return Many(r.Waiting, "change") + " of yours " + pick(r.Waiting == 1, "is", "are") + " kept here and still handed in."
}
