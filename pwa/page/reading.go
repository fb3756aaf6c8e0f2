package page

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

func overview(a *ask) *Reply {
	p := a.clocked()
	if a.Held != nil && a.frame.Owns() {
		a.frame.Held = a.Held(a.job.ID)
	}
	if a.Crowded != nil && a.frame.Owns() {
		a.frame.Crowded = a.Crowded(a.job.ID)
	}
	return a.draw(a.title(), view.Overview(a.frame, a.job, p))
}

func next(a *ask) *Reply {
	p := a.clocked()
	return a.draw("Next", view.Next(a.frame, a.job, p))
}

func counts(a *ask) *Reply {
	return a.draw("Counts", view.Counts(a.frame, a.job, a.plan()))
}

func pack(a *ask) *Reply {
	return a.draw("Pack",
		g.Group{view.Pack(a.frame, a.job, a.plan(), a.in.Get("left") == "1"), view.AddedExtras(a.frame, "pack")})
}

func cards(a *ask) *Reply {
	if a.in.Get("sheet") == "1" {
		return a.draw("Cards on paper", view.CardSheet(a.frame, a.job, a.plan()))
	}
	p := a.clocked()
	return a.draw("Cards", g.Group{view.Cards(a.frame, a.job, p, a.in.Get("show")), view.AddedExtras(a.frame, "site")})
}

func card(a *ask) *Reply {
	p := a.clocked()
	c, known := view.FindCard(p, job.CardKey(a.address.Item, ""))
	if !known {
		return a.notFound()
	}
	return a.draw(c.Title, g.Group{view.CardPage(a.frame, a.job, p, c), view.CardExtras(a.frame, c)})
}

func history(a *ask) *Reply {
	return a.draw("Who did what, when", view.History(a.frame, a.job, a.plan(), a.in.Get("e")))
}

func phone(a *ask) *Reply {
	return a.draw("This phone", view.Phone(a.frame, a.rows()))
}

// phoneAct takes what is asked of the phone itself; all but putting something aside and bringing a job back is the
// caller's own.
func phoneAct(a *ask) *Reply {
	reply := a.goes(address.Phone.Path(), "")
	if a.in.Get(view.FieldAct) == "aside" {
		reply.Aside, reply.Flash = a.in.Get(view.FieldOp), "Put aside."
	}
	if a.in.Get(view.FieldAct) == "bring" && a.Visitor.Role == job.Owner {
		reply.Bring, reply.Flash = a.in.Get(view.FieldOp), "It comes back onto this phone."
	}
	return reply
}
