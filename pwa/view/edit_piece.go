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
)

// PiecePage is what the page of one piece shows.
type PiecePage struct {
	ID     string // empty: a new one
	Kind   job.PieceKind
	Line   string // how a garland runs
	Editor Editor
	Layers []*job.Layer
	Count  count.PieceCount // as it stands in the form
	Look   *look.Look       // of that
	Wrong  string           // why it cannot be counted, empty if it can
	Notes  []count.Note
	ByHand bool // the pattern that is saved is by hand
}

// NewPiece draws the pictures of a new job to pick from, in the colours of this one, and the kinds without a picture
// there.
func NewPiece(f Frame, colours []job.Colour) g.Node {
	link := func(id, query string, picture count.Picture, label string) g.Node {
		return h.A(h.ID(domID("kind", id)), h.Class("pick"), h.Href(f.at(address.NewPiece)+"?"+query),
			Picture(picture, colours), h.Span(g.Text(label)))
	}
	var picks g.Group
	for _, p := range StartPieces() {
		picks = append(picks, link(p.Key, p.Query(), p.Picture, p.Label))
	}
	for _, k := range count.Kinds() {
		if name := string(k.Name); len(k.Starts) == 0 {
			picks = append(picks, link(name, "kind="+name, k.Picture, kindLabel(k.Name)))
		}
	}
	return g.Group{
		Heading("", "What do you build?"),
		Panel("", "", h.Div(h.Class("picks"), picks)),
	}
}

// EditPiece draws the form of a piece: only the fields of its kind, with what it takes beside them.
func EditPiece(f Frame, p PiecePage) g.Node {
	k := kindOf(p.Kind)
	to, title, save := f.at(address.Piece, p.ID), p.Editor.State.Get("name"), labelSave
	if p.ID == "" {
		to, title, save = f.at(address.NewPiece), "New "+strings.ToLower(kindLabel(p.Kind)), "Add to the job"
	}
	if title == "" {
		title = kindLabel(p.Kind)
	}
	var notes []count.Note
	if p.ID != "" {
		notes = notesOf(p.Notes, p.ID)
	}
	e := p.Editor
	moreWrong := false
	for _, name := range e.State.Wrong() {
		field, _, _ := strings.Cut(name, ".")
		moreWrong = moreWrong || slices.Contains(k.More, field)
	}
	return g.Group{
		Heading(k.Teach, title),
		toDecide(f, notes),
		decided(f, notes),
		hints(notes),
		h.Div(h.Class("editpiece"),
			EditForm("edit-piece", to, to,
				WrongList(e.Noun, e.State, ""),
				restoring(e.State, ""),
				Hidden("kind", string(p.Kind)),
				g.If(f.clusterQuery() != "", Hidden("cluster", f.Cluster)),
				g.If(p.ID != "", Hidden("was.kind", e.State.Get("was.kind"))),
				PartOf("What it is", "",
					e.fields(f, "name"),
					e.fields(f, measured(k, p.Line)...),
					g.If(k.ByLine != nil,
						h.NoScript(SubmitAct("show", "quiet", "Show the measures of this line")))),
				g.If(len(k.Build) > 0, PartOf("What it is built of", "", e.fields(f, k.Build...))),
				Folded("piece-more", moreTitle(k), moreWrong, e.fields(f, k.More...)),
				Foot(save, h.NoScript(SubmitAct("show", "", "Count it")))),
			h.Div(h.Class("besideform"), PieceBeside(f, p.Count, p.Look, p.Wrong, e.Colours,
				pieceCluster(f, p.Count, func(at *clusterShown) g.Node { return handPicker(f, p, at) })))),
		layersPanel(f, p),
		g.If(p.ID != "",
			ButtonRow(h.ID("piece-acts"),
				g.If(p.Look != nil, sendPicture(p.Count.Piece.Name)),
				buildSheetLink(f, p.ID),
				ActForm("copy-piece", to, "copy", p.ID, "", Icon("plus"), g.Text("Copy this piece")),
				ActForm("remove-piece", to, "remove", p.ID, "", Icon("cut"), g.Text("Remove this piece")))),
		otherKinds(f, p),
	}
}

// PieceBeside draws a piece beside a form that changes it, with more under its picture.
func PieceBeside(
	f Frame,
	c count.PieceCount,
	seen *look.Look,
	wrong string,
	colours []job.Colour,
	more ...g.Node,
) g.Node {
	return g.Group{Shades(append(append([]job.Colour(nil), colours...), count.Undecided(), sand())...),
		pieceFront(f, c, seen), g.Group(more), Recount(f, c, wrong)}
}

// layersPanel lists the layers of a piece, the lowest first.
func layersPanel(f Frame, p PiecePage) g.Node {
	if p.ID == "" || len(p.Layers) == 0 && !slices.Contains(kindOf(p.Kind).More, "accents") {
		return nil
	}
	to := f.at(address.Layers, p.ID)
	rows, label := make(g.Group, len(p.Layers)), "Change the layers"
	for i, l := range p.Layers {
		rows[i] = RowLink(domID("layer", l.ID), to+"#"+domID("item", l.ID), l.Called(), p.Count.LayerWords(l.ID), "")
	}
	if len(rows) == 0 {
		label = "Add a layer"
	}
	return Panel("Layers", "", h.ID("layers"),
		g.If(len(rows) > 0, List(rows)),
		ButtonLink(to, "", g.Text(label)))
}

// otherKinds offers a piece the other kinds. What was typed stays where both kinds have the field.
func otherKinds(f Frame, p PiecePage) g.Node {
	if p.ID == "" {
		return nil
	}
	return Folded("other-kind", "Change the kind", false,
		List(g.Map(count.Kinds(), func(k *count.Kind) g.Node {
			if k.Name == p.Kind {
				return nil
			}
			return RowLink("", f.at(address.Piece, p.ID)+"?kind="+string(k.Name), kindLabel(k.Name), k.Teach, "")
		})))
}
