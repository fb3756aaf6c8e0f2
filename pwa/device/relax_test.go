package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
)

// TestRecipeIsRelaxedInTheBackground checks that a recipe outside the tables is answered at once with an estimate,
// labelled as such. The phone then computes it, redraws the page, and keeps the result.
func TestRecipeIsRelaxedInTheBackground(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.passTime(true)
	at := "/calc/clusters?length=10ft&recipe=1x5%404+%2B+1x36%4033"
	assert.Contains(t, b.get(at).Parts["page"], "look again in a moment")
	b.await("the computed recipe", func(d device.Drawing) bool {
		return d.Path == at && d.Parts["page"] != "" && !strings.Contains(d.Parts["page"], "Estimated")
	})
	b.get("/calc/size")
	assert.NotContains(t, b.get(at).Parts["page"], "Estimated")
}
