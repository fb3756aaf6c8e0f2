package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A colour and a frame in use are removed: the job can still be copied, saved as a file and taken in again.
func TestAJobWithARemovedColourIsCopiedAndTakenIn(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	for _, at := range []string{"colours", "kit"} {
		v.visit("/jobs/demo/" + at).submit(`form[id^="remove-"]`, nil)
		require.Equal(t, 200, v.reply.Status, v.text())
	}
	door := v.current().Pieces[0]
	_, known := v.current().Colour("coral")
	require.False(t, known, "the first colour is gone")
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
