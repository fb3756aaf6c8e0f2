package view

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/address"
)

// Happening is one thing somebody did.
type Happening struct {
	Stamp  job.Stamp
	Who    string
	What   string // "Ticked", "+5 clusters", "Packed 40", "Changed"
	Of     string // what it is about, in words
	Detail string // what became of it: "Width 8 ft, recipe 3x11@10"; empty for ticks and counts
	Entity string
	Undone string       // who took it back; empty: it counts
	Undo   *Action      // takes it back; nil: cannot be, or not from here
	Back   []job.Change // what an Undo by "revert" writes
}

// historyShown is the most happenings on one page.
const historyShown = 200

// Happenings lists what was done, newest first: to one entity, or to everything the role may see for an empty one. What
// was typed into one form is one happening. The owner's private log is never in it.
func Happenings(j job.Job, p plan.Plan, role job.Role, entity string) []Happening {
	if j.State == nil {
		return nil
	}
	names := entityNames(j, p)
	var list []Happening
	var edits []edit
	seen := func(e string) bool {
		if entity != "" && e != entity || job.Private(e) {
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
			if field == "done" || field == "have" || field == "taken" || field == "back" {
				list = append(list, registerHappenings(role, e, field, *register, names)...)
			} else {
				edits = append(edits, editsOf(e, field, *register)...)
			}
		}
	}
	list = append(list, editHappenings(j, p, role, edits, names)...)
	for e, t := range j.State.Tallies {
		if seen(e) {
			list = append(list, tallyHappenings(role, e, t, names)...)
		}
	}
	slices.SortStableFunc(list, func(a, b Happening) int {
		return cmp.Or(b.Stamp.Compare(a.Stamp), cmp.Compare(a.Entity+a.What, b.Entity+b.What))
	})
	return list
}

// entityNames gives the words for every entity a person may meet.
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

func registerHappenings(role job.Role, entity, field string, r job.Register, names map[string]string) []Happening {
	var list []Happening
	for i, reading := range r.Readings {
		var before json.RawMessage
		if i+1 < len(r.Readings) {
			before = r.Readings[i+1].Value
		}
		happening := Happening{Stamp: reading.Stamp, Who: authorName(role, reading.Author),
			What: registerWords(field, reading.Value), Of: nameOf(names, entity), Entity: entity}
		if i == 0 {
			happening.Undo = undoRegister(entity, field, reading.Value, before)
		}
		list = append(list, happening)
	}
	return list
}

func registerWords(field string, value json.RawMessage) string {
	switch {
	case field == "done" && string(value) == "true":
		return "Ticked"
	case field == "done":
		return "Unticked"
	case field == "have":
		return "Packed " + string(value)
	case field == "back" && string(value) == "0":
		return "Not back in the car"
	case field == "back":
		return "Back in the car: " + string(value)
	case string(value) == `""` || string(value) == "null":
		return "Given back"
	}
	return "Taken by " + plainValue(value)
}

// plainValue writes a register's text for a line of history, cut to a line's length.
func plainValue(value json.RawMessage) string {
	var text string
	if json.Unmarshal(value, &text) != nil {
		text = string(value)
	}
	return cutLine(text)
}

// undoRegister gives the action that sets a register of progress back to what it was.
func undoRegister(entity, field string, now, before json.RawMessage) *Action {
	switch field {
	case "done":
		act := "tick"
		if string(now) == "true" {
			act = "untick"
		}
		return &Action{Act: act, Entity: entity}
	case "have", "back":
		act := "pack"
		if field == "back" {
			act = field
		}
		n, err := strconv.Atoi(string(before))
		if err != nil || n < 0 {
			n = 0
		}
		return &Action{Act: act, Entity: entity, N: Amount(n)}
	}
	return nil
}

func tallyHappenings(role job.Role, entity string, t *job.Tally, names map[string]string) []Happening {
	var list []Happening
	add := func(stamp job.Stamp, by job.Author, what string) {
		happening := Happening{Stamp: stamp, Who: authorName(role, by), What: what, Of: nameOf(names, entity), Entity: entity}
		if undoer, undone := t.Undone[stamp.ID]; undone {
			happening.Undone = authorName(role, undoer)
		} else {
			happening.Undo = &Action{Act: "undo", Entity: entity, Op: stamp.ID}
		}
		list = append(list, happening)
	}
	for _, e := range t.Entries {
		add(e.Stamp, e.Author, signed(int(e.Delta)))
	}
	for _, c := range t.Counts {
		add(c.Stamp, c.Author, "Counted "+strconv.FormatInt(c.N, 10))
	}
	return list
}

// when says at what time something was done, or that it still waits on the phone.
func when(f Frame, s job.Stamp) string {
	if s.Pending() {
		return "waits on this phone"
	}
	if f.Now-s.Effective < 24*3600*1000 {
		return Ago(f.Now, s.Effective)
	}
	return f.Stamp(s.Effective)
}

// History draws who did what when, with a way to take back what can be. Entity is empty for all of the job.
func History(f Frame, j job.Job, p plan.Plan, entity string) g.Node {
	list := Happenings(j, p, f.Role, entity)
	title := "Who did what, when"
	context := untitled(j.Brief.Title)
	if entity != "" {
		context = nameOf(entityNames(j, p), entity)
	}
	if len(list) == 0 {
		return g.Group{
			Heading(context, title),
			Empty("Nothing yet",
				"Every tick, count and change stands here with who made it and when. Each can be taken back.", "",
				ButtonLink(f.at(address.Cards), "", g.Text("The cards"))),
		}
	}
	more := len(list) - historyShown
	return g.Group{
		Heading(context, title),
		newer(j),
		g.If(entity != "", h.P(h.A(h.Href(f.at(address.History)), g.Text("All of the job")))),
		h.Ol(h.Class("history"),
			g.Map(list[:min(len(list), historyShown)], func(x Happening) g.Node { return happening(f, x, entity == "") })),
		g.If(more > 0, Soft("And "+number(more)+" before that. Open one card or line to see all of its own.")),
	}
}

func happening(f Frame, x Happening, named bool) g.Node {
	title := x.What
	if named {
		title += ": " + x.Of
	}
	return h.Li(h.ID(domID("did", x.Stamp.ID+"-"+x.Entity)), g.If(x.Undone != "", g.Attr("data-undone")),
		h.Div(h.Class("rowtext"),
			RowTitle(title),
			g.If(x.Detail != "", h.Span(g.Text(x.Detail))),
			h.Span(h.Class("soft"), g.Textf("%s, %s", x.Who, when(f, x.Stamp)),
				g.If(x.Undone != "", g.Text(". Taken back by "+x.Undone)))),
		g.Iff(x.Undo != nil, func() g.Node {
			d := *x.Undo
			d.Spot = "-" + x.Stamp.ID
			d.Back = f.Path
			if !named {
				d.Back += "?e=" + x.Entity
			}
			return Act(f, d, "quiet", Icon("undo"), g.Text("Undo"),
				ForReaders(fmt.Sprintf(": %s, %s", x.What, x.Of)))
		}))
}
