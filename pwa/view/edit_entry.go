package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// kindTiles draws what an entry can be, each a link to the form with the fields of that kind. Id names an entry that
// becomes another kind; it is empty for a new one. But is the kind that is left out.
func (p ListPage) kindTiles(id, but string) g.Node {
	return h.Ul(h.Class("tiles"), g.Map(p.Kinds, func(c job.Choice) g.Node {
		if c.Value == but {
			return nil
		}
		to := p.To + "?" + p.KindField + "=" + c.Value
		if id != "" {
			to = p.To + "?id=" + id + "&" + p.KindField + "=" + c.Value
		}
		return h.Li(h.A(h.Href(to), h.Span(g.Text(c.Label))))
	}))
}

// otherKinds offers an entry the other kinds.
func (p ListPage) otherKinds(item ListItem) g.Node {
	if p.KindField == "" {
		return nil
	}
	return Disclosure("quietdetails", "It is something else", h.ID(domID("kinds", item.ID)),
		p.kindTiles(item.ID, item.Kind))
}

func (p ListPage) kindLabel() string {
	for _, c := range p.Kinds {
		if c.Value == p.Kind {
			return c.Label
		}
	}
	return p.Kind
}

// NewEntry draws the form for a new entry of one kind: only the fields that this kind has.
func NewEntry(f Frame, p ListPage) g.Node {
	return g.Group{
		Heading("Add "+p.What, p.kindLabel()),
		Panel("", "", p.newForm(f)),
		LinkBelow(p.To, "back", "Back to "+strings.ToLower(p.Title)),
	}
}

// EntryAs draws the form of the page's one entry as another kind, and says what it loses by that.
func EntryAs(f Frame, p ListPage) g.Node {
	item := p.Items[0]
	prefix := item.ID + "."
	editor := p.editor(p.Fields, p.Fresh, prefix)
	return g.Group{
		Heading(item.Title+" becomes", p.kindLabel()),
		Panel("", "",
			g.Iff(len(item.Left) > 0, func() g.Node {
				return Notice(Changed, "care", "Saving this empties: "+strings.Join(item.Left, ", ")+".")
			}),
			EditForm(string(EntryForm(item.ID)), p.To, "",
				WrongList(p.Noun, p.Fresh, prefix),
				restoring(p.Fresh, prefix),
				Hidden(FieldAct, "save"),
				Hidden("id", item.ID),
				Hidden(prefix+p.KindField, p.Kind),
				editor.all(f),
				Foot(labelSave))),
		LinkBelow(p.To, "back", "Keep it as it is"),
	}
}

// Other is another job from which an empty list can be filled, with how many entries it has.
type Other struct {
	ID, Title string
	N         int
}

// TakeFrom offers an empty list what other jobs have. It draws nothing if there is no such job.
func TakeFrom(to, what string, others []Other) g.Node {
	if len(others) == 0 {
		return nil
	}
	return Panel("Use the "+what+" of another job", "", h.ID("take"), List(g.Map(others, func(o Other) g.Node {
		return SplitRow("", []g.Node{RowTitle(untitled(o.Title)), Small(number(o.N) + " in all")},
			ActForm(domID("take", o.ID), to, "take", o.ID, Plain, g.Text("Copy"), ForReaders(" the "+what+" of "+
				untitled(o.Title))))
	})))
}
