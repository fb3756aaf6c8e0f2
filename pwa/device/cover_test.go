package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// coverIn returns the cover of the only job in a drawing of the list, from its thumbnail to the end of the row.
func coverIn(t *testing.T, d device.Drawing) string {
	t.Helper()
	_, rest, found := strings.Cut(d.Parts["page"], `<span class="thumbnail"`)
	require.True(t, found, d.Parts["page"])
	cover, _, _ := strings.Cut(rest, `<span class="rowtext"`)
	return cover
}

// The list comes at once, and covers follow. A cover stays through ticks and changes with the design.
func TestCoversFollowTheList(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.passTime(true)
	drawn := func(d device.Drawing) bool {
		return d.Path == "/" && strings.Contains(d.Parts["page"], "<circle") &&
			!strings.Contains(d.Parts["page"], "data-later")
	}
	first := b.get("/")
	assert.Contains(t, coverIn(t, first), " data-later")
	assert.NotContains(t, coverIn(t, first), "<circle")
	before := coverIn(t, b.await("a cover", drawn))
	assert.LessOrEqual(t, strings.Count(before, "<circle"), 60)
	assert.LessOrEqual(t, len(before), 3000)

	b.tick("t", at, "card/look")
	assert.Equal(t, before, coverIn(t, b.get("/")), "at once, since the design is the same")
	require.True(t, b.post("c", at+"/pieces/garland", "act", "copy", "id", "garland").Stored)
	changed := b.get("/")
	assert.Contains(t, coverIn(t, changed), " data-later")
	after := coverIn(t, b.await("the new cover", drawn))
	assert.NotEqual(t, before, after)
	b.passTime(false)
}
