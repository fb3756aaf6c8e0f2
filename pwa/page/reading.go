package page

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

func overview(r *request) *Reply {
	p := r.planWithClock()
	if r.Held != nil && r.frame.Owns() {
		r.frame.Held = r.Held(r.job.ID)
	}
	if r.Crowded != nil && r.frame.Owns() {
		r.frame.Crowded = r.Crowded(r.job.ID)
	}
	return r.draw(r.title(), view.Overview(r.frame, r.job, p, r.clocks().Known(r.frame.Clock, r.job)))
}

func next(r *request) *Reply {
	p := r.planWithClock()
	r.pick()
	return r.draw("Next", view.Next(r.frame, r.job, p))
}

func counts(r *request) *Reply {
	return r.draw("Counts", view.Counts(r.frame, r.job, r.planBeforeClock()))
}

func pack(r *request) *Reply {
	left := r.in.Get("left") == "1"
	if r.find(""); left {
		r.find("left=1")
	}
	return r.draw("Pack",
		g.Group{view.Pack(r.frame, r.job, r.planBeforeClock(), left), view.AddedExtras(r.frame, "pack")})
}

func cards(r *request) *Reply {
	if r.in.Get("sheet") == "1" {
		return r.draw(view.LabelPaper, view.CardSheet(r.frame, r.job, r.plan()))
	}
	p := r.planWithClock()
	return r.draw("Cards", g.Group{view.Cards(r.frame, r.job, p, r.in.Get("show")), view.AddedExtras(r.frame, "site")})
}

func buildSheet(r *request) *Reply {
	return r.draw(view.LabelBuildSheet, view.BuildSheets(r.frame, r.job, r.plan(), r.in.Get("piece")))
}

func card(r *request) *Reply {
	p := r.planWithClock()
	c, known := view.FindCard(p, job.CardKey(r.address.Item, ""))
	if !known {
		return r.notFound()
	}
	r.pick()
	return r.draw(c.Title, g.Group{view.CardPage(r.frame, r.job, p, c), view.CardExtras(r.frame, c)})
}

func history(r *request) *Reply {
	return r.draw("History", view.History(r.frame, r.job, r.plan(), r.in.Get("e")))
}

func phone(r *request) *Reply {
	return r.draw("This phone", view.Phone(r.frame, r.rows()))
}

// phoneAct handles what is done on the phone itself: dismissing something, putting the offer to install away and
// bringing a job back. The caller handles the others.
func phoneAct(r *request) *Reply {
	reply := r.redirect(address.Phone.Path(), "")
	if r.in.Get(view.FieldAct) == "aside" {
		reply.Dismissed, reply.Flash = r.in.Get(view.FieldOp), "Dismissed."
	}
	if r.in.Get(view.FieldAct) == view.ActNoInstall {
		reply.NoInstall = true
		if at, known := address.Parse(r.in.Get(view.FieldThen)); known && at.Job != "" {
			reply.Redirect = r.in.Get(view.FieldThen)
		}
	}
	if r.in.Get(view.FieldAct) == "bring" && r.Visitor.Role == job.Owner {
		reply.BringBack, reply.Flash = r.in.Get(view.FieldOp), "It is coming back to this phone."
	}
	return reply
}

// mostPicked is how long the number of a cluster may be, in characters.
const mostPicked = 8

// pick reads which cluster the page shows.
func (r *request) pick() { r.frame.Cluster = truncate(r.in.Get("cluster"), mostPicked) }
