package view

import (
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan/count"
)

// PiecePage is what the page of one piece shows.
type PiecePage struct {
	ID     string // empty: a new one
	Kind   job.PieceKind
	Line   string // how a garland runs
	Editor Editor
	Count  count.PieceCount // as it stands in the form
	Wrong  string           // why it cannot be counted, empty if it can
	Notes  []count.Note
}

// NewPiece lets pick what to build.
func NewPiece(f Frame) g.Node {
	return these(
		Heading("", "What do you build?"),
		el(`ul class="panel"`, each(len(kindForms), func(i int) g.Node {
			k := &kindForms[i]
			return RowLink(domID("kind", string(k.kind)), f.at("pieces/new?kind="+string(k.kind)), kindLabel(k.kind), k.teach,
				"")
		})),
	)
}

// EditPiece draws the form of a piece: only the fields of its kind, with what it takes beside them.
func EditPiece(f Frame, p PiecePage) g.Node {
	k := kindOf(p.Kind)
	address, title, save := f.at("pieces/"+p.ID), p.Editor.State.Get("name"), "Save"
	if p.ID == "" {
		address, title, save = f.at("pieces/new"), "New "+strings.ToLower(kindLabel(p.Kind)), "Add to the job"
	}
	if title == "" {
		title = kindLabel(p.Kind)
	}
	e := p.Editor
	moreWrong := false
	for _, name := range e.State.Wrong() {
		field, _, _ := strings.Cut(name, ".")
		for _, more := range k.more {
			moreWrong = moreWrong || field == more
		}
	}
	return these(
		Heading(k.teach, title),
		Decisions(f, p.Notes, p.ID),
		el(`div class="editpiece"`,
			EditForm("edit-piece", address, address,
				WrongList(e.Noun, e.State, ""), restoring(e.State, ""),
				Hidden("kind", string(p.Kind)), g.If(p.ID != "", Hidden("was.kind", e.State.Get("was.kind"))),
				PartOf("What it is", "", e.fields(f, "name"), e.fields(f, k.measured(p.Line)...),
					g.If(p.Kind == job.Garland, el("noscript", SubmitAct("show", "quiet", "Show the measures of this line")))),
				g.If(len(k.build) > 0, PartOf("What it is built of", "", e.fields(f, k.build...))),
				Folded("piece-more", k.moreTitle(), moreWrong, e.fields(f, k.more...)),
				Foot(save, el("noscript", SubmitAct("show", "", "Count it")))),
			Recount(f, p.Count, p.Wrong)),
		g.If(p.ID != "", el(`div class="choices" id="piece-acts"`,
			ActForm("copy-piece", address, "copy", p.ID, "", fixed("{plus}Copy this piece")),
			ActForm("remove-piece", address, "remove", p.ID, "", fixed("{cut}Remove this piece")))),
		otherKinds(f, p),
	)
}

// otherKinds lets a piece become another kind; what was typed stays where both have the field.
func otherKinds(f Frame, p PiecePage) g.Node {
	if p.ID == "" {
		return nothing
	}
	return html(`<details id="other-kind" class="panel part folded"><summary>Make it something else</summary>
		<ul>{}</ul></details>`, nil,
		each(len(kindForms), func(i int) g.Node {
			k := &kindForms[i]
			if k.kind == p.Kind {
				return nothing
			}
			return RowLink("", f.at("pieces/"+p.ID+"?kind="+string(k.kind)), kindLabel(k.kind), k.teach, "")
		}))
}
