package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAPastedPairFillsBothFields checks that a width and a height pasted into one field of a piece or a calculator fill
// both.
func TestAPastedPairFillsBothFields(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	shown := func(name string) string { return v.doc.Find(`[name="`+name+`"]`).AttrOr("value", "") }
	v.visit("/jobs/demo/pieces/new?name=Sky&kind=wall&width_mm=10x8+ft&height_mm=2+m&recipe=2x11")
	assert.Equal(t, []string{"10 ft", "8 ft"}, []string{shown("width_mm"), shown("height_mm")}, "while it is typed")
	v.submit("#edit-piece", form.Values{"width_mm": {"3 m by 2 m"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	added := v.current().Pieces[len(v.current().Pieces)-1]
	assert.Equal(t, []float64{3000, 2000}, []float64{added.WidthMM, added.HeightMM})
	v.visit("/jobs/demo/pieces/"+added.ID).submit("#edit-piece", form.Values{"width_mm": {"3 x"}})
	require.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Find("#f-width_5fmm-error").Text(), "the height is missing")
	assert.Equal(t, "3 x", shown("width_mm"), "what was typed stays")

	v.visit("/calc/wall?units=metric&width=3x2&height=&recipe=2x11@9.5")
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, []string{"3 m", "2 m"}, []string{shown("width"), shown("height")})
}
