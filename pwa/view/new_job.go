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
	StartYou     = "you"           // the name of whoever makes the job
)

// NewJob draws the form that makes a job: the promise, what to build, in which colours, with how many hands, and
// whether to take over so many figures of one's own from the last job.
func NewJob(f Frame, brief Editor, state form.State, own int) g.Node {
	brief.State = state
	pieces := StartPieces()
	return g.Group{
		Heading("", "New job"),
		Lead("A first plan in a minute. Everything can be changed later, and only the title is needed."),
		EditForm("new-job", address.New.Path(), "",
			WrongList(brief.Noun, state, ""),
			h.Input(h.Type("hidden"), h.Name("zone"), h.Value(state.Get("zone")), g.Attr("data-zone")),
			PartOf("The promise",
				"Times are those of the day; an earlier day to build on can be set in the brief afterwards.",
				brief.fields(f, "title", "date", "in", "doors", "place", "units")),
			PartOf("What to build", "Give a measure to each thing you build; leave the others empty.",
				h.Div(h.Class("starts"),
					g.Map(pieces, func(x *count.Kind) g.Node { return startPiece(f, x, state) }))),
			startColours(state),
			startCrew(state),
			g.If(own > 0, startFigures(state, own)),
			Foot("Make the plan")),
		h.P(h.Class("soft"), g.Text("Have a job file? "), PlainLink(address.Import.Path(), "", "Take it in"), g.Text(".")),
	}
}

func startPiece(f Frame, k *count.Kind, state form.State) g.Node {
	p, key := k.Start, StartMeasure+string(k.Name)
	id, wrong := domID("f", key), state.Errors[key]
	example := p.Metric
	if f.Units == "imperial" {
		example = p.Imperial
	}
	return h.Div(h.Class("field start"), bad(wrong),
		h.Label(h.For(id), h.B(g.Text(p.Label)), Small(" "+p.Ask)),
		h.Input(h.ID(id), h.Name(key), h.Type("text"), h.AutoComplete("off"), h.Value(state.Get(key)),
			h.Placeholder(example), g.If(p.Keypad == "numeric", g.Attr("inputmode", "numeric")),
			invalid(id, wrong)),
		wrongLine(id, wrong))
}

func startColours(state form.State) g.Node {
	wrong := state.Errors[StartColour]
	other := domID("f", StartOther)
	colours := StartColours()
	return PartOf(
		"In which colours",
		"Tap those you use. The sizes they come in are set to what is usual; check them later.",
		h.FieldSet(h.Class("field"), h.ID(domID("f", StartColour)), bad(wrong),
			h.Legend(h.Class("vh"), g.Text("Colours")),
			h.Div(h.Class("segments swatches"),
				g.Map(colours, func(c job.Colour) g.Node {
					return h.Label(h.Input(h.Type("checkbox"), h.Name(StartColour), h.Value(c.ID),
						g.If(slices.Contains(state.Values[StartColour], c.ID), h.Checked())),
						h.Span(Swatch(c), g.Text(c.Name)))
				})),
			wrongLine(domID("f", StartColour), wrong)),
		h.Div(h.Class("field"), bad(state.Errors[StartOther]),
			h.Label(h.For(other), g.Text("Others, by name")),
			h.Input(h.ID(other), h.Name(StartOther), h.Type("text"), h.AutoComplete("off"),
				h.Value(state.Get(StartOther)), h.Placeholder("mustard, terracotta")),
			wrongLine(other, state.Errors[StartOther])),
	)
}

func startFigures(state form.State, own int) g.Node {
	return PartOf(
		"Your own figures",
		"What you measured on your last job holds for this one too, unless you leave it out. Each stands under Figures, with where it is from.",
		h.Div(h.Class("field"),
			h.Label(h.Class("check"),
				h.Input(h.Type("checkbox"), h.Name(StartFigures), h.Value("1"),
					g.If(state.Get(StartFigures) != "", h.Checked())),
				h.Span(g.Text("Take over "+Many(own, "figure")+" of my own")))),
	)
}

func startCrew(state form.State) g.Node {
	wrong := state.Errors[StartCrew]
	return PartOf(
		"With how many hands",
		"You, and whoever can be talked into helping. You count as practised, the others as beginners; change that under Crew.",
		h.FieldSet(h.Class("field"), h.ID(domID("f", StartCrew)), bad(wrong),
			h.Legend(h.Class("vh"), g.Text("People, with you")),
			h.Div(h.Class("segments"),
				g.Map([]string{"1", "2", "3", "4", "5", "6"}, func(value string) g.Node {
					return h.Label(h.Input(h.Type("radio"), h.Name(StartCrew), h.Value(value),
						g.If(state.Get(StartCrew) == value, h.Checked())),
						h.Span(g.Text(value)))
				})),
			wrongLine(domID("f", StartCrew), wrong)),
		FieldInput(
			Field{Field: job.Field{Name: StartYou, Label: "Your name", Kind: job.Text, Max: 60, Help: "As the crew calls you."},
				Typed: state.Values, Errors: state.Errors},
		),
	)
}
