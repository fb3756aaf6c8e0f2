package view

import (
	"slices"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// StartPiece is one picture that a new job, or a new piece, can begin with.
type StartPiece struct {
	Kind job.PieceKind
	count.Start
}

// Query asks for the form of a new piece that begins with this picture.
func (p *StartPiece) Query() string {
	query := "kind=" + string(p.Kind)
	if line, set := p.With["line"].(string); set {
		query += "&line=" + line
	}
	return query
}

// StartPieces lists the pictures in the order in which they are offered.
func StartPieces() []StartPiece {
	var all []StartPiece
	for _, k := range count.Kinds() {
		for _, start := range k.Starts {
			all = append(all, StartPiece{k.Name, start})
		}
	}
	return all
}

// StartColours are the colours offered for a palette, in names a client would use, with the sizes that such a finish
// usually comes in. Values were picked by eye; sizes are common practice, no source.
func StartColours() []job.Colour {
	all, small := []int{5, 11, 18, 24, 36}, []int{5, 11}
	return []job.Colour{
		{ID: "coral", Name: "Coral", Value: "#e5604d", Finish: "standard", Sizes: all},
		{ID: "blush", Name: "Blush", Value: "#f2b8a8", Finish: "standard", Sizes: all},
		{ID: "sand", Name: "Sand", Value: "#dcbd8c", Finish: "standard", Sizes: all},
		{ID: "ink-blue", Name: "Ink blue", Value: "#24416b", Finish: "standard", Sizes: all},
		{ID: "white", Name: "White", Value: "#f7f5f0", Finish: "standard", Sizes: all},
		{ID: "cream", Name: "Cream", Value: "#f3e6c8", Finish: "standard", Sizes: all},
		{ID: "lemon", Name: "Lemon", Value: "#f4d94a", Finish: "standard", Sizes: all},
		{ID: "apricot", Name: "Apricot", Value: "#f2a35e", Finish: "standard", Sizes: all},
		{ID: "red", Name: "Red", Value: "#c4262e", Finish: "standard", Sizes: all},
		{ID: "plum", Name: "Plum", Value: "#6b2d52", Finish: "standard", Sizes: all},
		{ID: "lilac", Name: "Lilac", Value: "#bfa3d6", Finish: "pastel", Sizes: all},
		{ID: "sky", Name: "Sky", Value: "#9cc7e6", Finish: "pastel", Sizes: all},
		{ID: "sea-green", Name: "Sea green", Value: "#2f8f83", Finish: "standard", Sizes: all},
		{ID: "leaf", Name: "Leaf", Value: "#5d8a3c", Finish: "standard", Sizes: all},
		{ID: "slate", Name: "Slate", Value: "#5b6670", Finish: "standard", Sizes: all},
		{ID: "black", Name: "Black", Value: "#1f1d1c", Finish: "standard", Sizes: all},
		{ID: "gold-mirror", Name: "Gold, mirror", Value: "#c9a24a", Finish: "mirror", Sizes: small},
		{ID: "silver-mirror", Name: "Silver, mirror", Value: "#b9bec4", Finish: "mirror", Sizes: small},
		{ID: "copper-mirror", Name: "Copper, mirror", Value: "#b5714f", Finish: "mirror", Sizes: small},
		{ID: "clear", Name: "Clear", Value: "#e3edf0", Finish: "crystal", Sizes: []int{5, 11, 18, 36}},
	}
}

// Names of the new job's inputs beside those of the brief.
const (
	StartBuild   = "build"   // the key of each picture that was tapped
	StartMeasure = "piece."  // followed by the key: its size
	StartColour  = "colours" // one value a colour
	StartCrew    = "crew"
	StartOther   = "other_colours" // names, parted by commas
	StartFigures = "own_figures"   // set: those of the last job are taken over
	StartYou     = "you"           // the name of the person who makes the job
	StartAccess  = "in.rule"       // the access that follows from the doors, see page/new_follow.go
)

// NewJobPage is what the page of a new job shows.
type NewJobPage struct {
	Brief    Editor // its state is that of the whole form
	Own      int    // how many numbers of the visitor's own the last job has; the form offers to use them again
	Title    string // the title that an empty one stands for
	Balloons int    // of the pieces picked so far; 0: none, or something is wrong
}

// NewJob draws the form that makes a job on one screen: the event, pictures of what to build with a size each, colours,
// hands. Everything else has a default and stands under More.
func NewJob(f Frame, p NewJobPage) g.Node {
	state := p.Brief.State
	return g.Group{
		Heading("", "New job"),
		EditForm("new-job", address.New.Path(), address.New.Path(),
			WrongList(p.Brief.Noun, state, ""),
			Hidden(StartAccess, state.Get(StartAccess)),
			h.Input(h.Type("hidden"), h.Name("zone"), h.Value(state.Get("zone")), g.Attr("data-zone")),
			startEvent(f, &p),
			startPieces(state),
			startColours(state),
			startHands(state),
			startMore(f, &p),
			h.Div(h.Class("foot"), Submit(Primary, g.Text("Make the plan")),
				h.P(h.ID("start-sum"), h.Role("status"), h.Class("soft"),
					g.If(p.Balloons > 0, g.Text(number(p.Balloons)+" balloons"))))),
		h.P(h.Class("soft"), g.Text("Have a job file? "), PlainLink(address.Import.Path(), "", LabelImport)),
	}
}

// startEvent asks for title, day and times. The title may stay empty.
func startEvent(f Frame, p *NewJobPage) g.Node {
	title, state := domID("f", "title"), p.Brief.State
	wrong := state.Errors["title"]
	return Panel("", "", h.ID("start-event"), h.Div(h.Class("fields startevent"),
		FieldBox(title, "Title", wrong,
			h.Input(h.ID(title), h.Name("title"), h.Type("text"), h.AutoComplete("off"), h.MaxLength("240"),
				h.Value(state.Get("title")), h.Placeholder(p.Title), invalid(title, wrong))),
		p.Brief.fields(f, "date", "in", "doors")))
}

// startPieces draws the pictures to tap. The size of each stands below them once it is tapped.
func startPieces(state form.State) g.Node {
	pieces := StartPieces()
	colours := tappedColours(state)
	return Panel("What do you build?", "", h.ID("start-pieces"),
		FieldGroup(domID("f", StartBuild), hiddenLegend("Pieces"), "",
			h.Div(h.Class("picks"), g.Map(pieces, func(p StartPiece) g.Node {
				on := slices.Contains(state.Values[StartBuild], p.Key)
				return pick(StartBuild, p.Key, on, Picture(p.Picture, colours), p.Label)
			}))),
		h.Div(h.Class("sizes fields"), g.Map(pieces, func(p StartPiece) g.Node { return startSize(&p, state) })))
}

// pick draws a checkbox that looks like what stands in it, a picture above its name.
func pick(name, value string, on bool, picture g.Node, label string) g.Node {
	return h.Label(h.Class("pick"), h.Input(h.Type("checkbox"), h.Name(name), h.Value(value), g.If(on, h.Checked())),
		picture, h.Span(g.Text(label)))
}

func startSize(p *StartPiece, state form.State) g.Node {
	key := StartMeasure + p.Key
	id, wrong := domID("f", key), state.Errors[key]
	label := g.Group{g.Text(p.Label), Small(", " + p.Ask)}
	if p.Most > 0 {
		return h.Div(h.Data("of", p.Key), FieldOf(id, label, wrong,
			Stepper(Step{ID: id, Name: key, Value: state.Get(key), Label: p.Many, Least: 1, Most: p.Most, Wrong: wrong})))
	}
	return h.Div(h.Data("of", p.Key), FieldOf(id, label, wrong,
		h.Input(h.ID(id), h.Name(key), h.Type("text"), h.AutoComplete("off"), g.Attr("autocapitalize", "off"),
			g.Attr("enterkeyhint", "done"), h.Value(state.Get(key)), invalid(id, wrong))))
}

// tappedColours returns the offered colours that were tapped.
func tappedColours(state form.State) []job.Colour {
	return slices.DeleteFunc(StartColours(), func(c job.Colour) bool {
		return !slices.Contains(state.Values[StartColour], c.ID)
	})
}

func startColours(state form.State) g.Node {
	wrong := state.Errors[StartColour]
	return Panel("Colours", "", h.ID("start-colours"),
		FieldGroup(domID("f", StartColour), hiddenLegend("Colours"), wrong,
			h.Div(h.Class("picks discs"), g.Map(StartColours(), func(c job.Colour) g.Node {
				on := slices.Contains(state.Values[StartColour], c.ID)
				return pick(StartColour, c.ID, on, Swatch(c), c.Name)
			}))))
}

func startHands(state form.State) g.Node {
	id, wrong := domID("f", StartCrew), state.Errors[StartCrew]
	return Panel("", "", h.ID("start-hands"), FieldOf(id, g.Group{g.Text("Hands"), Small(", you too")}, wrong,
		Stepper(Step{ID: id, Name: StartCrew, Value: state.Get(StartCrew), Label: "people", Least: 1, Most: 20,
			Wrong: wrong})),
		startCarry(state))
}

// startMore holds what has a default. It opens by itself for an error.
func startMore(f Frame, p *NewJobPage) g.Node {
	state, other := p.Brief.State, domID("f", StartOther)
	open := false
	for _, name := range []string{"units", "place", StartOther, StartYou} {
		open = open || state.Errors[name] != ""
	}
	return Folded("start-more", "More", open,
		p.Brief.fields(f, "units", "place"),
		FieldBox(other, "Other colours", state.Errors[StartOther],
			h.Input(h.ID(other), h.Name(StartOther), h.Type("text"), h.AutoComplete("off"),
				h.Value(state.Get(StartOther)), h.Placeholder("mustard, terracotta"))),
		FieldInput(Field{Field: job.Field{Name: StartYou, Label: "Your name", Kind: job.Text, Max: 60},
			Typed: state.Values, Errors: state.Errors}),
		g.If(p.Own > 0, Check(StartFigures, "1", "Use "+Many(p.Own, "number")+" from my last job",
			state.Get(StartFigures) != "")))
}
