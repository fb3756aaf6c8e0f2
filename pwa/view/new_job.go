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

// StartPieces are the kinds of piece that a new job can begin with.
func StartPieces() []*count.Kind {
	return slices.DeleteFunc(count.Kinds(), func(k *count.Kind) bool { return k.Start == nil })
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
	StartMeasure = "piece."  // followed by the kind
	StartColour  = "colours" // one value a colour
	StartCrew    = "crew"
	StartOther   = "other_colours" // names, parted by commas
	StartFigures = "own_figures"   // set: those of the last job are taken over
	StartYou     = "you"           // the name of the person who makes the job
)

// NewJob draws the form that makes a job: the event, what to build, colours and crew. Own is how many numbers of the
// visitor's own the last job has; the form offers to use them again.
func NewJob(f Frame, brief Editor, state form.State, own int) g.Node {
	brief.State = state
	pieces := StartPieces()
	return g.Group{
		Heading("", "New job"),
		Lead("Only the title is needed. You can change everything later."),
		EditForm("new-job", address.New.Path(), "",
			WrongList(brief.Noun, state, ""),
			h.Input(h.Type("hidden"), h.Name("zone"), h.Value(state.Get("zone")), g.Attr("data-zone")),
			PartOf("The event", "Building the day before? Set that in the brief later.",
				brief.fields(f, "title", "date", "in", "doors", "place", "units")),
			PartOf("What to build", "Fill in only what you build.",
				h.Div(h.Class("starts"),
					g.Map(pieces, func(k *count.Kind) g.Node { return startPiece(f, k, state) }))),
			startColours(state),
			startCrew(state),
			g.If(own > 0, startFigures(state, own)),
			Foot("Make the plan")),
		h.P(h.Class("soft"), g.Text("Have a job file? "), PlainLink(address.Import.Path(), "", LabelImport)),
	}
}

func startPiece(f Frame, k *count.Kind, state form.State) g.Node {
	p, key := k.Start, StartMeasure+string(k.Name)
	id, wrong := domID("f", key), state.Errors[key]
	example := p.Metric
	if f.Units == "imperial" {
		example = p.Imperial
	}
	return FieldOf(id, g.Group{h.B(g.Text(p.Label)), Small(" " + p.Ask)}, wrong,
		h.Input(h.ID(id), h.Name(key), h.Type("text"), h.AutoComplete("off"), h.Value(state.Get(key)),
			h.Placeholder(example), g.If(p.Keypad == "numeric", g.Attr("inputmode", "numeric")),
			invalid(id, wrong)))
}

func startColours(state form.State) g.Node {
	wrong := state.Errors[StartColour]
	other := domID("f", StartOther)
	colours := StartColours()
	return PartOf("Colours", "Tap those you use. Check their sizes later.",
		FieldGroup(domID("f", StartColour), hiddenLegend("Colours"), wrong,
			Segments(
				g.Map(colours, func(c job.Colour) g.Node {
					return Segment("checkbox", StartColour, c.ID,
						slices.Contains(state.Values[StartColour], c.ID), Swatch(c), g.Text(c.Name))
				}))),
		FieldBox(other, "Other colours", state.Errors[StartOther],
			h.Input(h.ID(other), h.Name(StartOther), h.Type("text"), h.AutoComplete("off"),
				h.Value(state.Get(StartOther)), h.Placeholder("mustard, terracotta"))),
	)
}

func startFigures(state form.State, own int) g.Node {
	return PartOf(labelNumbers, "",
		Check(StartFigures, "1", "Use "+Many(own, "number")+" from my last job", state.Get(StartFigures) != ""))
}

func startCrew(state form.State) g.Node {
	wrong := state.Errors[StartCrew]
	return PartOf("Crew", "You count as practised, the others as beginners.",
		startCarry(state),
		FieldGroup(domID("f", StartCrew), hiddenLegend("People, with you"), wrong,
			Segments(
				g.Map([]string{"1", "2", "3", "4", "5", "6"}, func(value string) g.Node {
					return Segment("radio", StartCrew, value, state.Get(StartCrew) == value, g.Text(value))
				}))),
		FieldInput(Field{Field: job.Field{Name: StartYou, Label: "Your name", Kind: job.Text, Max: 60},
			Typed: state.Values, Errors: state.Errors}),
	)
}
