package view

import (
	"encoding/json"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan/task"
)

// FieldWas is the form field with the note as it stood when its form was drawn.
const FieldWas = "was." + FieldText

// NoteOn gives the note that stands on a card.
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
			Hidden(FieldText, noteText(other.Value)), fixed(`<button type="submit" class="quiet">Use it</button>`))))
	}
	if !edits {
		if c.Note == "" {
			return these(said...)
		}
		return Panel("Note", "", txt(`p class="note"`, c.Note), these(said...))
	}
	return Panel("Note", "", these(said...), noteForm(f, c, now, "",
		txt(`label class="vh" for="note-text"`, "Note on this card"),
		html(`<textarea id="note-text" name="$" rows="2" maxlength="4000">$</textarea>`, texts{FieldText, "\n" + c.Note}),
		txt(`button type="submit"`, "Keep the note")))
}

func noteForm(f Frame, c task.Card, now, spot string, inside ...g.Node) g.Node {
	return DeedForm(f, Deed{Act: "note", Entity: c.Key, Spot: spot}, "", Hidden(FieldWas, now), these(inside...))
}

func noteVersion(f Frame, title string, r job.Reading) g.Node {
	return html(`<p class="note">$: $ <span class="soft">($, $)</span></p>`,
		texts{title, noteText(r.Value), authorName(f.Role, r.Author), when(f, r.Stamp)})
}
