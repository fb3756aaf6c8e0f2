package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSavingRestoresWhatSomebodyRemoved removes an item while somebody else edits it. The typed text stays, and saving
// again restores the item with that text.
func TestSavingRestoresWhatSomebodyRemoved(t *testing.T) {
	for _, row := range []struct{ name, entity, page, form, input string }{
		{"a piece", "piece/door", "/jobs/demo/pieces/door", "#edit-piece", "name"},
		{"a colour", "colour/coral", "/jobs/demo/colours", `[id="form-coral"]`, "coral.name"},
		{"a helper", "member/bea", "/jobs/demo/crew", `[id="form-bea"]`, "bea.name"},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := demo(t)
			v := w.visitor(job.Owner, "Dora")
			v.visit(row.page)
			w.write(job.Author{Role: job.Owner, Name: "Bea"},
				page.Write{Job: "demo", Changes: []job.Change{job.Put(row.entity, "removed", true)}})
			v.submit(row.form, form.Values{row.input: {"Typed with care"}})
			require.Equal(t, 422, v.reply.Status)
			assert.Contains(t, v.doc.Find(".wronglist").Text(), "Somebody removed this")
			require.Equal(t, "Typed with care", standing(v.doc.Find(row.form)).Get(row.input))
			assert.True(t, v.current1("demo").State.Removed(row.entity))
			v.submit(row.form, nil)
			require.Equal(t, 200, v.reply.Status, v.text())
			state := v.current1("demo").State
			assert.False(t, state.Removed(row.entity))
			assert.Equal(t, `"Typed with care"`, string(state.Register(row.entity, "name").Value()))
		})
	}
}
