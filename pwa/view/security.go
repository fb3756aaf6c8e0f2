package view

import (
	"slices"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// SecurityEvent is one line of the security log. Times are in Unix milliseconds.
type SecurityEvent struct {
	At, Until            int64 // first and last, if it stands for several
	Times                int   // 0: one
	What, Why            string
	N                    int    // operations
	Job, JobID           string // title and id
	Linked               bool   // the job is there
	LinkID, LinkName     string
	DeviceID, DeviceName string
	By, From             string
}

// SecurityPage is what [Security] shows.
type SecurityPage struct {
	Events []SecurityEvent // newest first
	Show   string          // one of the filters; empty: all
	Page   int             // from 1
	More   bool            // there are older ones
	Unkept int             // events that are not on disk yet
}

// securityKinds says what each filter shows, and in words what each kind of event is.
var securityKinds = []struct{ show, what, words string }{
	{"in", "joined", "Helper signed in"},
	{"in", "owner_in", "Device of yours signed in"},
	{"in", "installed", "Installed app signed in"},
	{"links", "link_made", "Link made"},
	{"links", "link_ended", "Link ended"},
	{"links", "invite_made", "Link for your other device made"},
	{"links", "code_made", "Code for an installed app made"},
	{"links", "device_ended", "Device of yours ended"},
	{"links", "signed_out", "Phone signed out"},
	{"limits", "hour_full", "Hourly limit reached; the rest waits on the phone"},
	{"limits", "full", "Storage limit reached; refused"},
	{"limits", "set_aside", "Changes set aside"},
	{"links", "job_deleted", "Job deleted, restorable for 30 days"},
	{"links", "job_restored", "Deleted job restored"},
	{"links", "job_gone", "Deleted job removed for good"},
	{"links", "restored", "Data restored"},
	{"refused", "refused", "Refused"},
}

var securityWhy = map[string]string{
	"no_such_link": "a link or code that opens nothing",
	"link_over":    "a link that has ended",
	"link_busy":    "a link open on too many devices",
	"stranger":     "a device that is not signed in",
	"closed":       "a device whose link has ended",
	"forbidden":    "not allowed for this link",
	"other_site":   "sent by another website",
	"wrong_host":   "asked under another address",
	"too_many":     "too many requests at once",
}

// SecurityShows reports whether a filter shows a kind of event.
func SecurityShows(show, what string) bool {
	for _, k := range securityKinds {
		if k.what == what {
			return k.show == show || !slices.Contains([]string{"in", "links", "limits", "refused"}, show)
		}
	}
	return show == ""
}

// Security draws the security log for the owner.
func Security(f Frame, p SecurityPage) g.Node {
	at := func(show string, page int) string {
		var query []string
		if show != "" {
			query = append(query, "show="+show)
		}
		if page > 1 {
			query = append(query, "page="+strconv.Itoa(page))
		}
		if len(query) == 0 {
			return address.Security.Path()
		}
		return address.Security.Path() + "?" + strings.Join(query, "&")
	}
	tab := func(show, label string) filter { return filter{at(show, 1), label, p.Show == show} }
	return g.Group{
		Heading("", "Security log"),
		Lead("Who signed in, was refused or lost access. Restoring a backup keeps this log."),
		g.If(p.Unkept > 0,
			Notice(Changed, "care",
				"The server’s disk is full: "+Many(p.Unkept, "line")+" not saved yet. Make room on the server.")),
		filters("Which events", tab("", "All"), tab("in", "Sign-ins"), tab("refused", "Refused"),
			tab("links", "Links and devices"), tab("limits", "Limits")),
		g.Iff(len(p.Events) == 0, func() g.Node {
			return Empty("Nothing here", "No such event so far.", "",
				ButtonLink(address.Phone.Path(), "", g.Text("This phone")))
		}),
		g.Iff(len(p.Events) > 0, func() g.Node {
			return h.Ol(h.Class("history"), h.ID("security"),
				g.Map(p.Events, func(x SecurityEvent) g.Node { return securityLine(f, x) }))
		}),
		h.Nav(h.Class("choices"), h.Aria("label", "Older and newer"),
			g.If(p.Page > 1, ButtonLink(at(p.Show, p.Page-1), "", g.Text("Newer"))),
			g.If(p.More, ButtonLink(at(p.Show, p.Page+1), "", g.Text("Older")))),
	}
}

func securityLine(f Frame, e SecurityEvent) g.Node {
	title := e.What
	for _, k := range securityKinds {
		if k.what == e.What {
			title = k.words
		}
	}
	if e.Why != "" {
		title += ": " + securityWhy[e.Why]
	}
	if e.Times > 0 {
		title += ", " + number(e.Times) + " times"
	}
	return h.Li(h.Div(h.Class("rowtext"),
		RowTitle(title),
		g.Map(securityFacts(e), func(fact string) g.Node { return h.Span(g.Text(fact)) }),
		Small(securityWhen(f, e))))
}

func securityWhen(f Frame, e SecurityEvent) string {
	when := f.Stamp(e.At)
	if e.Until > e.At {
		when += " to " + f.Stamp(e.Until)
	}
	return when
}

// securityFacts lists who and what an event is about.
func securityFacts(e SecurityEvent) []string {
	var facts []string
	add := func(label, name, id string) {
		switch {
		case name != "" && id != "":
			facts = append(facts, label+name+" ("+shortID(id)+")")
		case name+id != "":
			facts = append(facts, label+name+shortID(id))
		}
	}
	add("Phone of ", e.DeviceName, e.DeviceID)
	add("Link for ", e.LinkName, e.LinkID)
	if e.N > 0 {
		facts = append(facts, Many(e.N, "change"))
	}
	add("Job: ", e.Job, "")
	add("By ", e.By, "")
	add("From ", e.From, "")
	return facts
}

// shortID returns the first characters of an id, enough to tell it from others.
func shortID(id string) string { return id[:min(len(id), 8)] }

// securityLink leads the owner to the security log.
func securityLink(f Frame) g.Node {
	if !f.Owns() {
		return nil
	}
	return Panel("Security log", "", ButtonLink(address.Security.Path(), "", g.Text("Open the log")))
}
