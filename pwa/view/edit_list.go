package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// ListPage is a page that edits all entities of one noun: colours, crew, kit, own lines.
type ListPage struct {
	Title, Lead string
	What        string // one of them, "colour", for buttons
	To          string // the address that forms post to
	Noun        *job.Noun
	Fields      []string
	Options     map[string][]job.Choice // of references, by field
	Items       []ListItem
	KindField   string       // the field that says what one is; empty: all are of one kind
	Kinds       []job.Choice // what one can be
	Kind        string       // of the form shown by [NewEntry] or [EntryAs]
	Fresh       form.State   // what stands in the form for a new one
	FreshOpen   bool
	Teach       string // what the list is for, while it is empty
	Quick       g.Node // a faster way to add, nil for none
	Colours     []job.Colour
	Beside      g.Node // drawn anew as one types, nil for none
}

// ListItem is one entity of a [ListPage].
type ListItem struct {
	ID, Title, Below string
	Mark             g.Node // beside the title; nil for none
	State            form.State
	Kind             string   // what it is, if they are of several kinds
	Fields           []string // of those of the page, the ones that are asked
	Left             []string // labels of the fields that it loses when it becomes another kind
	Open             bool
}

// EditList draws the page: each entity a row that opens into its form, then a form for a new one.
func EditList(f Frame, p ListPage) g.Node {
	rows := make([]g.Node, 0, len(p.Items))
	for i, item := range p.Items {
		rows = append(rows, p.item(f, item, i))
	}
	list := g.Group{
		g.If(len(rows) == 0, Empty("Nothing here yet", p.Teach, "", nil)),
		g.If(len(rows) > 0, ListPanel(rows...)),
		g.If(p.Quick != nil, p.Quick),
		Folded("add", "Add "+p.What, p.FreshOpen || len(rows) == 0 && p.Quick == nil, p.add(f)),
	}
	if p.Beside != nil {
		list = g.Group{h.Div(h.Class("editpiece"), h.Div(h.Class("edit"), list), h.Div(h.Class("besideform"), p.Beside))}
	}
	return g.Group{Heading("", p.Title), g.If(p.Lead != "", Lead(p.Lead)), list}
}

// editor is the editor of an entry.
func (p *ListPage) editor(fields []string, state form.State, prefix string) Editor {
	return Editor{Noun: p.Noun, Fields: fields, State: state, Prefix: prefix, Options: p.Options, Colours: p.Colours}
}

// live is the address that draws the page anew while one types, if it does.
func (p *ListPage) live() string {
	if p.Beside == nil {
		return ""
	}
	return p.To
}

// add draws the form for a new entry, or what it can be where that says which fields it has.
func (p ListPage) add(f Frame) g.Node {
	if p.KindField != "" {
		return p.kindTiles("", "")
	}
	return p.newForm(f)
}

func (p ListPage) newForm(f Frame) g.Node {
	fresh := p.editor(p.Fields, p.Fresh, "new.")
	return EditForm(string(NewEntryForm), p.To, p.live(),
		WrongList(p.Noun, p.Fresh, "new."),
		Hidden(FieldAct, "add"),
		g.If(p.KindField != "", Hidden("new."+p.KindField, p.Kind)),
		fresh.all(f),
		Foot("Add"))
}

func (p ListPage) item(f Frame, item ListItem, place int) g.Node {
	prefix := item.ID + "."
	editor := p.editor(item.Fields, item.State, prefix)
	return h.Li(h.ID(domID("item", item.ID)),
		h.Details(h.ID(domID("open", item.ID)), g.If(item.Open, g.Attr("open")),
			h.Summary(h.Class("row"),
				g.If(item.Mark != nil, item.Mark),
				RowText(item.Title, g.If(item.Below != "", Small(item.Below))),
				Icon("edit")),
			Fields(
				EditForm(string(EntryForm(item.ID)), p.To, p.live(),
					WrongList(p.Noun, item.State, prefix),
					restoring(item.State, prefix),
					Hidden(FieldAct, "save"),
					Hidden("id", item.ID),
					editor.all(f),
					Foot(labelSave)),
				p.otherKinds(item),
				ButtonRow(
					g.If(place > 0,
						ActForm(domID("up", item.ID), p.To, "up", item.ID, "quiet", g.Text("Move up"))),
					g.If(place+1 < len(p.Items),
						ActForm(domID("down", item.ID), p.To, "down", item.ID, "quiet", g.Text("Move down"))),
					ActForm(domID("remove", item.ID), p.To, "remove", item.ID, "quiet",
						g.Text("Remove "+item.Title))))))
}

// Starters draws colours that one tap adds to the palette.
func Starters(to string, colours []job.Colour) g.Node {
	if len(colours) == 0 {
		return g.Group{}
	}
	return Panel("Add with one tap", "", h.ID("starters"),
		h.Div(h.Class("starters"),
			g.Map(colours, func(c job.Colour) g.Node {
				return ActForm(domID("start", c.ID), to, "start", c.ID, "", Swatch(c), g.Text(c.Name))
			})))
}
