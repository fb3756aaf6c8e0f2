package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAJobWithARemovedColourIsCopiedAndImported checks that a job can be copied, exported and imported although a
// colour and a frame that it uses were removed.
func TestAJobWithARemovedColourIsCopiedAndImported(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	for _, at := range []string{"colours", "kit"} {
		v.visit("/jobs/demo/"+at).submit(`form[id^="remove-"]`, nil)
		require.Equal(t, 200, v.reply.Status, v.text())
	}
	door := v.current().Pieces[0]
	_, known := v.current().Colour("coral")
	require.False(t, known, "the first colour must be gone")
	v.post("/jobs/demo/copy", form.Values{})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, door.Colours, v.current().Pieces[0].Colours)
	v.visit("/jobs/demo/export")
	require.NotNil(t, v.reply.File)
	file := string(v.reply.File.Data)
	v.visit("/import").submit("form:has([name=text])", form.Values{"text": {file}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, door.Colours, v.current().Pieces[0].Colours)
	assert.Len(t, v.current().Colours, 4)
}

// TestSavingAPieceKeepsWhatWasRemoved checks that saving a piece changes only what was typed, even if its colour and
// frame were removed.
func TestSavingAPieceKeepsWhatWasRemoved(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	used := map[string]bool{}
	for _, p := range v.current1("demo").Pieces {
		if p.Frame != "" {
			used["kit/"+p.Frame] = true
		}
		for _, c := range p.Counts {
			used["colour/"+c.Colour] = true
		}
	}
	require.Greater(t, len(used), 1)
	var gone []job.Change
	for entity := range used {
		gone = append(gone, job.Put(entity, "removed", true))
	}
	w.write(job.Author{Role: job.Owner}, page.Write{Job: "demo", Changes: gone})
	before := v.current1("demo").Pieces
	for i, p := range before {
		v.visit("/jobs/demo/pieces/"+p.ID).submit("#edit-piece", form.Values{"name": {"Another name"}})
		require.Equal(t, 200, v.reply.Status, v.text())
		p.Name = "Another name"
		assert.Equal(t, p, v.current1("demo").Pieces[i])
	}
	p := before[len(before)-1]
	for _, p = range before {
		if p.Kind == "free" {
			break
		}
	}
	v.visit("/jobs/demo/pieces/"+p.ID).submit("#edit-piece", form.Values{"counts.0.count": {"7"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	saved, _ := v.current1("demo").Piece(p.ID)
	require.NotEmpty(t, p.Counts)
	assert.Equal(t, 7, saved.Counts[0].Count)
	assert.Equal(t, p.Counts[0].Colour, saved.Counts[0].Colour, "the colour must not become the palette's first")
}
