package view

import (
	"math"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// Placing is a thing of the page of the room whose numbers are typed there.
type Placing struct {
	Entity, Name string
	Fields       []string
	Placed       bool // a piece that was given a place
}

// Room draws where the pieces stand, for those who edit with a form for the numbers of things. State holds the form.
func Room(f Frame, j job.Job, p plan.Plan, things []Placing, state form.State) g.Node {
	room := p.Room(onCover)
	if room == nil {
		return g.Group{Heading("", "Room"), Empty("Nothing to arrange yet", "Pieces stand here once they have balloons.", "",
			g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", Icon("plus"), g.Text(labelAddPiece))))}
	}
	v := fitRoom(room)
	return g.Group{
		jobShades(j),
		Heading("", "Room"),
		h.Div(h.Class("roomview"), g.If(!f.Edits(), h.TabIndex("0")), v.drawRoom(room, f)),
		g.Iff(f.Edits(), func() g.Node { return v.moving(f) }),
		hints(p.RoomNotes()),
		g.Iff(f.Edits(), func() g.Node {
			return g.Group{
				EditForm("room-places", f.at(address.Room), "", WrongList(&job.Noun{}, state, ""),
					PartOf("Places", "Middle, from the room's left. Empty: placed automatically.",
						g.Map(things, func(t Placing) g.Node { return placeFields(f, t, room, state) })),
					Foot(labelSave)),
				LinkBelow(f.at(address.Boxes), "edit", "Doors, tables, steps"),
			}
		}),
		LinkBelow(f.at(address.Pieces), "pieces", "Pieces"),
	}
}

// moving draws the form that the picture's script sends: what was moved, from where, by how much.
func (f *front) moving(page Frame) g.Node {
	return g.Group{
		h.P(h.Class("soft"), h.ID("room-help"), g.Attr("hidden"), h.Data("by-hand", ""),
			g.Text("Drag, or use arrow keys; Shift moves finely.")),
		PostForm(ByCore, "room-move", page.at(address.Room), g.Attr("data-each"), g.Attr("hidden"),
			Hidden("unit", strconv.FormatFloat(1/f.scale, 'g', 9, 64)),
			g.Map([]string{FieldAct, "id", "at", "up", "x", "y", "fine"}, func(name string) g.Node { return Hidden(name, "") })),
	}
}

// ItemWords says where a thing of a room is: "Arch, middle at 2.4 m, on the floor".
func ItemWords(item *look.Item, units measure.System) string {
	words, where := item.Name+", middle at "+measure.FormatLength(item.MiddleMM(), units), " above the floor"
	switch {
	case math.Abs(item.BottomMM) < 5:
		return words + ", on the floor"
	case item.BottomMM < 0:
		where = " below the floor"
	}
	return words + ", " + measure.FormatLength(math.Abs(item.BottomMM), units) + where
}

// placeFields draws the numbers of one thing. Where none is typed, they show where the thing is placed automatically.
func placeFields(f Frame, t Placing, room *look.Look, state form.State) g.Node {
	noun, _ := job.FindNoun(t.Entity)
	item, there := room.Item(t.Entity)
	hints := [...]float64{item.MiddleMM(), max(0, item.BottomMM)}
	inputs := make(g.Group, len(t.Fields))
	for i, name := range t.Fields {
		field, _ := noun.Field(name)
		input := Field{Field: *field, Prefix: t.Entity + ".", Typed: state.Values, Errors: state.Errors, Units: f.Units}
		if input.Help = ""; there {
			input.Hint = measure.FormatLength(hints[i], f.Units)
		}
		inputs[i] = FieldInput(input)
	}
	return FieldGroup(domID("place", t.Entity), g.Text(t.Name), "", h.Div(h.Class("pair"), inputs),
		g.If(t.Placed, Submit(Quiet, h.Name("itself"), h.Value(t.Entity), g.Text("Place automatically"),
			ForReaders(": "+t.Name))))
}
