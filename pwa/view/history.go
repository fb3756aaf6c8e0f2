package view

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/stable"
	"garlandry/pwa/address"
)

// Event is one thing that somebody did.
type Event struct {
	Stamp  job.Stamp
	Who    string
	What   string // "Ticked", "+5 clusters", "Packed 40", "Changed"
	Of     string // the name of what it is about
	Detail string // the new values: "Width 8 ft, recipe 3x11@10"; empty for ticks and counts
	Entity string
	Undone string       // who undid it; empty: it counts
	Undo   *Action      // undoes it; nil: not possible
	Back   []job.Change // what an Undo by "revert" writes
}

// historyShown is the most events on one page.
const historyShown = 200

// Events lists what was done to an entity, newest first; for an empty entity, to everything the role may see. The
// changes of one form are one event. The owner's private log is never in it.
func Events(j job.Job, p plan.Plan, role job.Role, entity string) []Event {
	if j.State == nil {
		return nil
	}
	names := entityNames(j, p)
	var list []Event
	var edits []edit
	seen := func(e string) bool {
		if entity != "" && e != entity || job.Private(e) {
			return false
		}
		if role != job.Owner && strings.HasPrefix(e, "photo/") && string(j.State.Register(e, "shared").Value()) != "true" {
			return false
		}
		return role == job.Owner || role == job.Lead || job.IsProgress(e)
	}
	for e, fields := range j.State.Registers {
		if !seen(e) {
			continue
		}
		for field, register := range fields {
			if (field == "have" || field == "stands") && job.IsCard(e) { // goes with a tick, which is listed
				continue
			}
			if doneField(field) {
				list = append(list, registerEvents(role, e, field, *register, names)...)
			} else {
				edits = append(edits, editsOf(e, field, *register)...)
			}
		}
	}
	list = append(list, editEvents(j, p, role, edits, names)...)
	for e, t := range j.State.Tallies {
		if seen(e) {
			list = append(list, tallyEvents(role, e, t, names)...)
		}
	}
	stable.Sort(list, func(a, b Event) int {
		return cmp.Or(b.Stamp.Compare(a.Stamp), cmp.Compare(a.Entity+a.What, b.Entity+b.What))
	})
	return list
}

// entityNames returns the name of every entity that a person may see.
func entityNames(j job.Job, p plan.Plan) map[string]string {
	names := map[string]string{"brief": "Brief"}
	for _, c := range p.Cards {
		names[c.Key] = c.Title
	}
	for _, bag := range p.Pack {
		for _, line := range bag.Lines {
			names[line.Key] = line.Name
		}
	}
	for _, x := range j.Pieces {
		names["piece/"+x.ID] = x.Name
	}
	for i := range j.Layers {
		x := &j.Layers[i]
		names["layer/"+x.ID] = x.Called() + " on " + names["piece/"+x.Piece]
	}
	for _, x := range j.Colours {
		names["colour/"+x.ID] = x.Name
	}
	for _, x := range j.Crew {
		names["member/"+x.ID] = x.Name
	}
	for _, x := range j.Kit {
		names["kit/"+x.ID] = x.Name
	}
	for _, x := range j.Added {
		names["added/"+x.ID] = x.Text
	}
	for _, x := range j.Photos {
		names["photo/"+x.ID] = x.Name
	}
	for _, x := range j.Boxes {
		names["box/"+x.ID] = x.Name
	}
	for _, x := range p.Figures {
		names["override/"+x.Key] = x.Label
	}
	return names
}

func nameOf(names map[string]string, entity string) string {
	if name, known := names[entity]; known && name != "" {
		return name
	}
	if n, known := job.FindNoun(entity); known {
		return n.Label
	}
	_, rest, _ := strings.Cut(entity, "/")
	return strings.ReplaceAll(orElse(rest, entity), "/", " ")
}

func registerEvents(role job.Role, entity, field string, r job.Register, names map[string]string) []Event {
	var list []Event
	for i, reading := range r.Readings {
		var before json.RawMessage
		if i+1 < len(r.Readings) {
			before = r.Readings[i+1].Value
		}
		event := Event{Stamp: reading.Stamp, Who: authorName(role, reading.Author),
			What: registerWords(field, reading.Value), Of: nameOf(names, entity), Entity: entity}
		if i == 0 {
			event.Undo = undoRegister(entity, field, reading.Value, before)
		}
		list = append(list, event)
	}
	return list
}

// doneField reports whether a register of a card or pack line says what somebody did, each time it is set.
func doneField(field string) bool {
	switch field {
	case "done", "have", "taken", "back", "bought", "unneeded":
		return true
	}
	return false
}

func registerWords(field string, value json.RawMessage) string {
	switch {
	case field == "done" && string(value) == "true":
		return "Ticked"
	case field == "done":
		return "Unticked"
	case field == "have":
		return "Packed " + string(value)
	case field == "bought":
		return "Bought " + string(value)
	case field == "unneeded" && string(value) == "true":
		return labelNotNeeded
	case field == "unneeded":
		return "Needed again"
	case field == "back" && string(value) == "0":
		return "Not back in the car"
	case field == "back":
		return LabelInCar + string(value)
	case string(value) == `""` || string(value) == "null":
		return "Given back"
	}
	return "Taken by " + plainValue(value)
}

// plainValue writes a register's text for a line of history, shortened to fit.
func plainValue(value json.RawMessage) string {
	var text string
	if json.Unmarshal(value, &text) != nil {
		text = string(value)
	}
	return cutLine(text)
}

// undoRegister returns the action that sets a register of progress back to its last value.
func undoRegister(entity, field string, now, before json.RawMessage) *Action {
	switch field {
	case "done":
		act := "tick"
		if string(now) == "true" {
			act = "untick"
		}
		return &Action{Act: act, Entity: entity}
	case "unneeded":
		act := "unneeded"
		if string(now) == "true" {
			act = "needed"
		}
		return &Action{Act: act, Entity: entity}
	case "have", "back", "bought":
		act := map[string]string{"have": "pack", "back": "back", "bought": "buy"}[field]
		n, err := strconv.Atoi(string(before))
		if err != nil || n < 0 {
			n = 0
		}
		return &Action{Act: act, Entity: entity, N: Amount(n)}
	}
	return nil
}

func tallyEvents(role job.Role, entity string, t *job.Tally, names map[string]string) []Event {
	var list []Event
	add := func(stamp job.Stamp, by job.Author, what string) {
		event := Event{Stamp: stamp, Who: authorName(role, by), What: what, Of: nameOf(names, entity), Entity: entity}
		if undoer, undone := t.Undone[stamp.ID]; undone {
			event.Undone = authorName(role, undoer)
		} else {
			event.Undo = &Action{Act: "undo", Entity: entity, Op: stamp.ID}
		}
		list = append(list, event)
	}
	for _, e := range t.Entries {
		add(e.Stamp, e.Author, signed(int(e.Delta)))
	}
	for _, c := range t.Counts {
		add(c.Stamp, c.Author, "Counted "+strconv.FormatInt(c.N, 10))
	}
	return list
}

// when says when something was done, or that it is not shared yet.
func when(f Frame, s job.Stamp) string {
	if s.Pending() {
		return "not shared yet"
	}
	if f.Now-s.Effective < 24*3600*1000 {
		return Ago(f.Now, s.Effective)
	}
	return f.Stamp(s.Effective)
}

// History draws who did what and when, with a button to undo it where possible. An empty entity means the whole job.
func History(f Frame, j job.Job, p plan.Plan, entity string) g.Node {
	list := Events(j, p, f.Role, entity)
	title := labelHistory
	heading := jobHeading(j, title)
	if entity != "" {
		heading = Heading(nameOf(entityNames(j, p), entity), title)
	}
	if len(list) == 0 {
		return g.Group{
			heading,
			Empty("Nothing yet",
				"Ticks, counts and changes are listed here, with who made them. You can undo each.", "",
				ButtonLink(f.at(address.Cards), Plain, g.Text("Cards"))),
		}
	}
	more := len(list) - historyShown
	return g.Group{
		heading,
		newer(j),
		g.If(entity != "", h.P(h.A(h.Href(f.at(address.History)), g.Text("The whole job")))),
		h.Ol(h.Class("history"),
			g.Map(list[:min(len(list), historyShown)], func(x Event) g.Node { return eventRow(f, x, entity == "") })),
		g.If(more > 0, Soft("And "+number(more)+" older. Open a card or line to see its own.")),
	}
}

func eventRow(f Frame, x Event, named bool) g.Node {
	title := x.What
	if named {
		title += ": " + x.Of
	}
	return h.Li(h.ID(domID("did", x.Stamp.ID+"-"+x.Entity)), g.If(x.Undone != "", g.Attr("data-undone")),
		h.Div(h.Class("rowtext"),
			RowTitle(title),
			g.If(x.Detail != "", h.Span(g.Text(x.Detail))),
			h.Span(h.Class("soft"), g.Textf("%s, %s", x.Who, when(f, x.Stamp)),
				g.If(x.Undone != "", g.Text(". Undone by "+x.Undone)))),
		g.Iff(x.Undo != nil, func() g.Node {
			d := *x.Undo
			d.Spot = "-" + x.Stamp.ID
			d.Back = f.Path
			if !named {
				d.Back += "?e=" + x.Entity
			}
			return Act(f, d, Quiet, Icon("undo"), g.Text(labelUndo),
				ForReaders(fmt.Sprintf(": %s, %s", x.What, x.Of)))
		}))
}
