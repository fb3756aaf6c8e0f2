package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestATickedCardOpensWhenTheDesignGrows checks that a ticked card with a tally opens again when the design grows, and
// shows how many are left. Unticking or counting by eye clears this.
func TestATickedCardOpensWhenTheDesignGrows(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	card := func() task.Card {
		j, _ := w.read(id)
		for _, c := range plan.Make(j).Cards {
			if c.Key == "card/make/garland" {
				return c
			}
		}
		require.FailNow(t, "no such card")
		return task.Card{}
	}
	helper := w.visitor(job.Helper, "Ines")
	act := func(pairs ...string) {
		in := form.Values{view.FieldEntity: {"card/make/garland"}}
		for i := 0; i < len(pairs); i += 2 {
			in.Set(pairs[i], pairs[i+1])
		}
		reply := page.Post(helper.world1(), "/jobs/"+id+"/do", in)
		require.Len(t, reply.Writes, 1)
		w.write(job.Author{Role: job.Helper, Name: "Ines"}, reply.Writes[0])
	}
	want := card().Count
	require.Positive(t, want)
	act(view.FieldAct, "tick")
	require.True(t, card().Done)
	require.Equal(t, want, card().Made)
	w.write(job.Author{Role: job.Owner},
		page.Write{Job: id, Changes: []job.Change{job.Put("piece/garland", "length_mm", 6400)}})
	grown := card()
	require.Greater(t, grown.Count, want)
	assert.False(t, grown.Done)
	assert.Equal(t, want, grown.Made)
	act(view.FieldAct, "count", view.FieldAmount, "7")
	assert.Equal(t, 7, card().Made, "a count by eye takes precedence")
	act(view.FieldAct, "tick")
	assert.True(t, card().Done)
	act(view.FieldAct, "untick")
	assert.False(t, card().Done)
	assert.Equal(t, 7, card().Made)
}

// TestATickedCardSaysHowMuchWasDone checks that a ticked card opens again when more is needed, and says how much it was
// ticked for.
func TestATickedCardSaysHowMuchWasDone(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	reply := page.Post(w.visitor(job.Helper, "Ines").world1(), "/jobs/"+id+"/do",
		form.Values{view.FieldAct: {"tick"}, view.FieldEntity: {"card/shop"}})
	require.Len(t, reply.Writes, 1)
	w.write(job.Author{Role: job.Helper, Name: "Ines"}, reply.Writes[0])
	v.visit("/jobs/" + id + "/cards/shop")
	require.NotContains(t, v.doc.Text(), "Done for ")
	w.write(job.Author{Role: job.Owner},
		page.Write{Job: id, Changes: []job.Change{job.Put("piece/garland", "length_mm", 6400)}})
	for _, at := range []string{"/cards", "/cards/shop"} {
		v.visit("/jobs/" + id + at)
		assert.Contains(t, v.doc.Text(), "Done for ", at)
		assert.Contains(t, v.doc.Text(), "are needed now: ", at)
	}
	v.visit("/jobs/" + id + "/history?e=card/shop")
	assert.NotContains(t, v.doc.Text(), "pack/latex", "it is part of the tick")
	assert.NotContains(t, v.doc.Text(), "Changed")
	v.post("/jobs/"+id+"/do", form.Values{view.FieldAct: {"tick"}, view.FieldEntity: {"card/shop"}})
	v.visit("/jobs/" + id + "/cards/shop")
	assert.NotContains(t, v.doc.Text(), "Done for ")
}
