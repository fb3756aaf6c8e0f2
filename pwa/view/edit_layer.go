package view

import (
	"slices"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// LayerPage is what the page of one layer shows.
type LayerPage struct {
	Piece  job.Piece
	ID     string // empty: a new one
	Editor Editor // its first three fields are what it is built of, the last three are folded away
	Count  count.PieceCount // of the piece as the form stands
	Look   *look.Look       // of that
	Wrong  string           // why it cannot be counted, empty if it can
}

// EditLayer draws the form of a layer, with its piece beside it.
func EditLayer(f Frame, p LayerPage) g.Node {
	to, title, save := f.at(address.Layer, p.Piece.ID, p.ID), orElse(p.Editor.State.Get("name"), usualLayer()), labelSave
	if p.ID == "" {
		to, title, save = f.at(address.Layers, p.Piece.ID), "New layer", "Add to the piece"
	}
	e := p.Editor
	folded := e.Fields[len(e.Fields)-3:]
	return g.Group{
		Shades(append(append([]job.Colour(nil), e.Colours...), count.Undecided(), sand())...),
		Heading("On "+p.Piece.Name, title),
		h.Div(h.Class("editpiece"),
			EditForm("edit-layer", to, to,
				WrongList(e.Noun, e.State, ""),
				restoring(e.State, ""),
				PartOf("What it is built of", "", e.fields(f, e.Fields[:3]...)),
				PartOf("How many, and where", "", e.fields(f, e.Fields[3:len(e.Fields)-3]...)),
				Folded("layer-more", "Ties, where it is made, notes", wrongAmong(e.State, folded), e.fields(f, folded...)),
				Foot(save, h.NoScript(SubmitAct("show", "", "Count it")))),
			h.Div(h.Class("besideform"), pieceFront(f, p.Count, p.Look), layerRecount(f, p))),
		g.If(p.ID != "", ButtonRow(
			ActForm("remove-layer", to, "remove", p.ID, "", Icon("cut"), g.Text("Remove this layer")))),
	}
}

// layerRecount says what a layer takes as it stands in the form, large, and its piece with it.
func layerRecount(f Frame, p LayerPage) g.Node {
	on := &count.LayerCount{}
	for i := range p.Count.Layers {
		if l := &p.Count.Layers[i]; l.ID == p.ID || p.ID == "" && i == len(p.Count.Layers)-1 {
			on = l
		}
	}
	if p.Wrong != "" || on.Clusters == 0 {
		return Recount(f, p.Count, p.Wrong)
	}
	facts := []string{Many(on.Balloons, "balloon"), "A cluster: " + recipeWords(on.Recipe)}
	if on.GlueDots > 0 {
		facts = append(facts, Many(on.GlueDots, "glue dot"))
	} else {
		facts = append(facts, Many(on.Ties, "tie"))
	}
	facts = append(facts, Many(p.Count.Balloons, "balloon")+" in the whole piece")
	return ResultPanel("recount", Many(on.Clusters, "cluster")+", "+Many(on.Balloons, "balloon"),
		Big(number(on.Clusters), plural(on.Clusters, "cluster")+" in the layer"),
		factList(facts),
		Working(labelMaths, p.Count.Working, ""))
}

func factList(facts []string) g.Node {
	return h.Ul(h.Class("facts"), g.Map(facts, func(fact string) g.Node { return h.Li(g.Text(fact)) }))
}

// wrongAmong reports whether one of the fields has an error.
func wrongAmong(state form.State, fields []string) bool {
	for _, name := range state.Wrong() {
		field, _, _ := strings.Cut(name, ".")
		if slices.Contains(fields, field) {
			return true
		}
	}
	return false
}

func usualLayer() string { return (&job.Layer{}).Called() }

// layersPanel lists the layers of a piece, the lowest first, and offers another.
func layersPanel(f Frame, p PiecePage) g.Node {
	if p.ID == "" || len(p.Layers) == 0 && !slices.Contains(kindOf(p.Kind).More, "accents") {
		return nil
	}
	rows := make([]g.Node, 0, len(p.Layers))
	for i := range p.Layers {
		l := &p.Layers[i]
		says := "No clusters yet"
		for k := range p.Count.Layers {
			if on := &p.Count.Layers[k]; on.ID == l.ID {
				says = on.Words()
			}
		}
		move := func(act, label, icon string) g.Node {
			return ActForm(domID(act, l.ID), f.at(address.Layers, p.ID), act, l.ID, ButtonStyle("quiet step "+act),
				Icon(icon), ForReaders(label+" "+l.Called()))
		}
		rows = append(rows, h.Li(h.ID(domID("layer", l.ID)),
			h.A(h.Class("row"), h.Href(f.at(address.Layer, p.ID, l.ID)), RowText(l.Called(), Small(says)), Icon("open")),
			h.Div(h.Class("choices small"),
				g.If(i > 0, move("up", "Move up", "back")),
				g.If(i+1 < len(p.Layers), move("down", "Move down", "open")))))
	}
	return Panel("Layers", "", h.ID("layers"),
		g.If(len(rows) == 0, Soft("Clusters on top that round it off or let it swell.")),
		g.If(len(rows) > 0, List(g.Group(rows))),
		g.If(len(rows) > 1, Soft("The lowest first.")),
		ButtonLink(f.at(address.Layers, p.ID), "", Icon("plus"), g.Text("Add a layer")))
}
