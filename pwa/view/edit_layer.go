package view

import (
	"slices"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/pwa/address"
)

// LayerPage is what the page of one layer shows.
type LayerPage struct {
	Piece  job.Piece
	ID     string // empty: a new one
	Editor Editor
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
	return g.Group{
		Shades(append(append([]job.Colour(nil), e.Colours...), count.Undecided(), sand())...),
		Heading("On "+p.Piece.Name, title),
		h.Div(h.Class("editpiece"),
			EditForm("edit-layer", to, to,
				WrongList(e.Noun, e.State, ""),
				restoring(e.State, ""),
				Fields(e.all(f)),
				Foot(save, h.NoScript(SubmitAct("show", "", "Count it")))),
			h.Div(h.Class("besideform"), pieceFront(f, p.Count, p.Look), Recount(f, p.Count, p.Wrong))),
		g.If(p.ID != "", ButtonRow(
			ActForm("remove-layer", to, "remove", p.ID, "", Icon("cut"), g.Text("Remove this layer")))),
	}
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
