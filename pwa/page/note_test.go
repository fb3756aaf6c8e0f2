package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// writeAfter writes changes of somebody who saw an earlier state of the job.
func (w *world) writeAfter(seen *job.State, by job.Author, write page.Write) {
	w.now += 10_000
	for _, c := range write.Changes {
		w.seq++
		op := w.writer.Write(seen, c)
		w.jobs[write.Job].shared.Apply(job.Rec{Op: op, Effective: op.Wall, Seq: w.seq, Author: by})
	}
}

// TestANoteDoesNotOverwriteAnUnseenOne checks that a note does not overwrite a newer one that its writer had not seen,
// and that the page shows both.
func TestANoteDoesNotOverwriteAnUnseenOne(t *testing.T) {
	rows := []struct {
		name, was, text string
		status          int
		writes          string // "" if nothing is written
	}{
		{"a new text over the seen one", "Side door", "Front door", 303, `"Front door"`},
		{"the current text again", "Side door", "Side door", 303, ""},
		{"a text left as it was", "Old door", "Old door", 303, ""},
		{"line ends of another browser", "Side door\r\n", " Side door\r\n", 303, ""},
		{"a new text over an unseen one", "Old door", "Front door", 422, ""},
		{"the same text from two people", "Old door", "Side door", 303, ""},
		{"cleared", "Side door", "", 303, `""`},
		{"cleared over an unseen one", "Old door", "", 422, ""},
		{"a form of an early version", "-", "Front door", 303, `"Front door"`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			w, v := typedJob(t)
			id := v.current().ID
			w.write(job.Author{Role: job.Lead, Name: "Ines"},
				page.Write{Job: id, Changes: []job.Change{job.Put("card/load", "note", "Side door")}})
			in := form.Values{view.FieldAct: {"note"}, view.FieldEntity: {"card/load"}, view.FieldText: {row.text},
				view.FieldWas: {row.was}}
			if row.was == "-" {
				delete(in, view.FieldWas)
			}
			reply := page.Post(v.world1(), "/jobs/"+id+"/do", in)
			assert.Equal(t, row.status, reply.Status)
			if row.writes != "" {
				require.Len(t, reply.Writes, 1)
				assert.Equal(t, row.writes, string(reply.Writes[0].Changes[0].Value))
				return
			}
			assert.Empty(t, reply.Writes)
			if row.status == 303 {
				assert.Equal(t, "Nothing was changed.", reply.Flash)
				return
			}
			page := v.post("/jobs/"+id+"/do", in).doc.Find("#page")
			assert.Contains(t, page.Find("#alert").Text(), "changed the note meanwhile")
			assert.Contains(t, page.Text(), "On the card now: Side door (Ines, ")
			assert.Equal(t, row.text, page.Find("#note-text").Text(), "the typed text must stay")
			assert.Equal(t, "Side door", page.Find(`form:has(#note-text) input[name="`+view.FieldWas+`"]`).AttrOr("value", ""),
				"the form must now know both")
		})
	}
}

// TestTheOtherVersionOfANoteIsOffered checks that the page offers a version of a note that the last writer had not
// seen, until somebody has seen both.
func TestTheOtherVersionOfANoteIsOffered(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	before, _ := w.read(id)
	old := before.State.Clone()
	w.write(job.Author{Role: job.Lead, Name: "Ines"},
		page.Write{Job: id, Changes: []job.Change{job.Put("card/load", "note", "Side door")}})
	w.writeAfter(old, job.Author{Role: job.Lead, Name: "Bea"},
		page.Write{Job: id, Changes: []job.Change{job.Put("card/load", "note", "Front door")}})
	at := "/jobs/" + id + "/cards/load"
	card := v.visit(at).doc.Find("#page")
	assert.Equal(t, "Front door", card.Find("#note-text").Text())
	assert.Contains(t, card.Text(), "Other version: Side door (Ines, ")
	helper := w.visitor(job.Helper, "Cleo").visit(at).doc.Find("#page")
	assert.Contains(t, helper.Text(), "Other version: Side door (Ines, ", "a helper must see both")
	assert.NotContains(t, helper.Text(), "Use it")
	use := card.Find(`form:contains("Use it")`)
	require.Equal(t, 1, use.Length())
	in := form.Values{}
	for _, name := range []string{view.FieldAct, view.FieldEntity, view.FieldText, view.FieldWas} {
		in.Set(name, use.Find(`input[name="`+name+`"]`).AttrOr("value", "missing"))
	}
	v.post("/jobs/"+id+"/do", in)
	card = v.visit(at).doc.Find("#page")
	assert.Equal(t, "Side door", card.Find("#note-text").Text())
	assert.NotContains(t, card.Text(), "Other version")
}
