package view

import (
	"encoding/json"
	"fmt"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/task"
)

// FieldWas is the form field with the note as it stood when its form was drawn.
const FieldWas = "was." + FieldText

// NoteOn returns the note that stands on a card.
func NoteOn(j job.Job, card string) string { return noteText(j.State.Register(card, "note").Value()) }

func noteText(value json.RawMessage) string {
	text := ""
	_ = json.Unmarshal(value, &text) // what is no text says nothing
	return text
}

// cardNote draws the note on a card, with what stands on the card now if that is another than what was typed, and with
// other versions of it.
func cardNote(f Frame, j job.Job, c task.Card) g.Node {
	register := j.State.Register(c.Key, "note")
	now, edits := noteText(register.Value()), f.Role.MayField(job.Set, c.Key, "note")
	var said []g.Node
	if c.Note != now && now != "" {
		said = append(said, noteVersion(f, "On the card now", register.Readings[0]))
	}
	for _, other := range register.Unseen() {
		said = append(said, noteVersion(f, "Other version", other), g.If(edits, noteForm(f, c, now, "-"+other.ID,
			Hidden(FieldText, noteText(other.Value)), Submit(Quiet, g.Text("Use it")))))
	}
	if !edits {
		if c.Note == "" {
			return g.Group(said)
		}
		return Panel("Note", "", h.P(h.Class("note"), g.Text(c.Note)), g.Group(said))
	}
	return Panel("Note", "", g.Group(said), noteForm(f, c, now, "",
		h.Label(h.Class("vh"), h.For("note-text"), g.Text("Note on this card")),
		h.Textarea(h.ID("note-text"), h.Name(FieldText), h.Rows("2"), h.MaxLength("8000"), g.Text("\n"+c.Note)),
		Submit(Plain, g.Text("Save note"))))
}

func noteForm(f Frame, c task.Card, now, spot string, inside ...g.Node) g.Node {
	return ActionForm(f, Action{Act: "note", Entity: c.Key, Spot: spot}, "", Hidden(FieldWas, now), g.Group(inside))
}

func noteVersion(f Frame, title string, r job.Reading) g.Node {
	return h.P(h.Class("note"), g.Textf("%s: %s ", title, noteText(r.Value)),
		Small(fmt.Sprintf("(%s, %s)", authorName(f.Role, r.Author), when(f, r.Stamp))))
}
