package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
)

// The names of the fields of these forms. FieldAll means: leave although something is lost. FieldHere means that a
// phone drew the form and sends its changes first; a server that gets such a form asks again.
const (
	FieldAll  = "all"
	FieldHere = "here"
)

// Leaving is the progress of a device that signs out or removes a job.
type Leaving struct {
	Handing bool   // the unshared changes are being sent
	Stuck   string // why they could not be sent; empty: not tried yet, or under way
	Lost    []Loss // what would be lost now
	Refused int    // refused changes that are lost too
	Last    bool   // no other device of the owner is signed in
}

// Loss is what would be lost of one job.
type Loss struct {
	Title          string // of the job; empty where this visitor may not know it
	Changes, Ticks int    // not shared
	Heals          bool   // records that the server has lost and this phone could restore
	Other          bool   // made here under another link
	Forms          int    // forms of no job that neither phone nor server has processed
}

// OffJob is a job that the owner removed from this phone.
type OffJob struct{ ID, Title string }

// serverLost names what this phone holds and the server does not.
const serverLost = "records that the server has lost"

func (l Loss) words() string {
	what := changesOrTicks(l.Changes, l.Ticks)
	switch {
	case l.Forms > 0:
		return Many(l.Forms, "form") + " not sent yet"
	case l.Heals && l.Changes == 0:
		what = serverLost
	case l.Other:
		return what + " made here under another link"
	}
	return what + " · " + untitled(l.Title)
}

// waits sums up what is not shared yet: "3 ticks".
func (l Leaving) waits() string {
	changes, ticks := 0, 0
	for _, x := range l.Lost {
		changes += x.Changes + x.Forms
		ticks += x.Ticks
	}
	switch {
	case len(l.Lost) == 0:
		return ""
	case changes == 0:
		return serverLost
	}
	return changesOrTicks(changes, ticks)
}

// SignOut draws the page that signs this phone out: what goes, what stays, and what would be lost.
func SignOut(f Frame, l Leaving) g.Node {
	switch {
	case l.Stuck != "" && len(l.Lost) == 0:
		return leavePanel("Not signed out yet",
			h.P(g.Text(l.Stuck)),
			leaveForm(f, address.SignOut.Path(), "leave", Primary, "Try again", false),
			Soft("Or sign out here now. The server ends this phone’s access when it next has signal."),
			leaveForm(f, address.SignOut.Path(), "leave-all", Quiet, "Sign out anyway", true),
			staysLink(labelStay))
	case l.Stuck != "":
		return leaveStuck(f, l, address.SignOut.Path(), address.Unsent.Path(), "Sign out and lose this", labelStay)
	case l.Handing:
		return leaveHanding(l, "Sign out", "Then this phone signs out.", "Asking the server…")
	}
	return leavePanel("Sign out", leaveFirst(l), leaveGoes(f, l),
		g.If(!f.Device.Here, h.P(g.Text("What you did not share is lost."))),
		leaveForm(f, address.SignOut.Path(), "leave", Primary, "Sign out", false), staysLink(labelStay))
}

// RemoveJob draws the page that takes one job off the owner's phone.
func RemoveJob(f Frame, l Leaving) g.Node {
	to, file := f.at(address.RemoveJob), address.Unsent.Path()+"?job="+f.JobID
	switch {
	case !f.Device.Here:
		return leavePanel(LabelRemoveJob,
			h.P(g.Text("This phone doesn’t keep this job.")), staysLink("Back"))
	case l.Stuck != "":
		return leaveStuck(f, l, to, file, "Remove and lose this", labelKeepHere)
	case l.Handing:
		return leaveHanding(l, LabelRemoveJob, "Then this phone removes the job.", "Sharing…")
	}
	return leavePanel(LabelRemoveJob,
		h.P(h.Class("sentence"), g.Text(untitled(f.JobTitle))),
		leaveFirst(l),
		Hints(Hint("phone", "Removed from this phone only."),
			Hint("tick", "Kept on the server and your other devices."),
			Hint("back", "Bring it back under This phone.")),
		leaveForm(f, to, "leave", Primary, "Remove", false), staysLink(labelKeepHere))
}

func leavePanel(title string, inside ...g.Node) g.Node {
	return Narrow(Heading("", title), Panel("", "", inside...))
}

func leaveFirst(l Leaving) g.Node {
	return g.Group{
		g.If(l.waits() != "",
			Notice(Changed, "wait", "Shared first: "+l.waits()+".")),
		g.If(l.Refused > 0,
			Notice(Changed, "care", Many(l.Refused, "refused change")+" will be lost.",
				PlainLink(address.Phone.Path(), "", "See"))),
	}
}

// leaveGoes says what goes, what stays, and how this person comes back.
func leaveGoes(f Frame, l Leaving) g.Node {
	goes, back := "Removes your jobs and your name from this phone.",
		"To come back, open an owner link, made under Share on another device."
	if f.Role != job.Owner {
		goes, back = "Removes the job and your name from this phone.", "To come back, open your link again."
	}
	return g.Group{
		Hints(Hint("phone", goes),
			Hint("tick", "The others keep what is shared."),
			g.If(!l.Last, Hint("back", back))),
		g.If(l.Last,
			Notice(Alarm, "care", "",
				h.Span(g.Text("This is your last device. To get back in, run "), h.B(g.Text("garlandry invite")),
					g.Text(" on the server.")))),
	}
}

func leaveHanding(l Leaving, title, then, idle string) g.Node {
	line := idle
	if waits := l.waits(); waits != "" {
		line = "Sharing " + waits + "…"
	}
	return leavePanel(title, h.P(h.Class("sentence"), h.Role("status"), g.Text(line)), Soft(then), staysLink("Stop"))
}

// leaveStuck lists what would be lost, with the ways on.
func leaveStuck(f Frame, l Leaving, to, file, anyway, stay string) g.Node {
	return leavePanel(labelNotShared,
		h.P(g.Text(l.Stuck+" Only this phone has:")),
		Hints(g.Map(l.Lost, func(x Loss) g.Node { return Hint("wait", x.words()) })),
		leaveForm(f, to, "leave", Primary, "Try again", false),
		ButtonLink(file, Plain, h.Download(""), Icon("share"), g.Text(labelSaveFile)),
		leaveForm(f, to, "leave-all", Quiet, anyway, true),
		staysLink(stay))
}

func leaveForm(f Frame, to, id string, style ButtonStyle, label string, all bool) g.Node {
	return PostForm(ByCore, id, to, g.Attr("data-leave"),
		g.If(all, Hidden(FieldAll, "yes")),
		g.If(f.Device.Here, Hidden(FieldHere, "yes")),
		Submit(style, g.Text(label)))
}

func staysLink(label string) g.Node {
	return h.P(PlainLink(address.Phone.Path(), "back", label))
}

// Out draws the page of a device that has signed out. Later: the server is told when there is signal.
func Out(later bool) g.Node {
	return Narrow(Heading("", "Signed out"),
		Panel("", "",
			h.P(g.Text("This phone keeps nothing of your jobs.")),
			g.If(later,
				h.P(g.Text("Open this page again with signal, so that the server ends this phone’s access.")))),
		h.P(PlainLink(address.Scan.Path(), "", LabelJoin)))
}

// phoneLeave leads from the phone page to signing out.
func phoneLeave(f Frame) g.Node {
	if f.Role == "" {
		return nil
	}
	return Panel("Leave", "", ButtonLink(address.SignOut.Path(), Plain, g.Text("Sign out")))
}

// phoneJobs lists the owner's jobs to be removed from this phone, and those that were.
func phoneJobs(f Frame, rows []JobRow) g.Node {
	off := f.Device.Off
	if !f.Owns() || !f.Device.Here || len(rows)+len(off) == 0 {
		return nil
	}
	return g.Group{
		g.If(len(rows) > 0,
			Panel("Remove a job from this phone", "",
				List(g.Map(rows, func(x JobRow) g.Node {
					return RowLink("", address.RemoveJob.Path(x.ID), untitled(x.Title), "", "")
				})))),
		g.If(len(off) > 0,
			Panel("Not on this phone", "", h.ID("off"),
				List(g.Map(off, func(x OffJob) g.Node {
					return SplitRow("", []g.Node{RowTitle(untitled(x.Title))},
						PostForm(ByCore, domID("bring", x.ID), address.Phone.Path(),
							Hidden(FieldAct, "bring"),
							Hidden(FieldOp, x.ID),
							Submit(Plain, g.Text("Bring back"))))
				})))),
	}
}

// offLink leads from the list of jobs to those that are not on this phone.
func offLink(off []OffJob) g.Node {
	if len(off) == 0 {
		return nil
	}
	return LinkBelow(address.Phone.Path(), "phone", number(len(off))+" not on this phone")
}
