package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// Columns are built at the venue. The plan says so where one load would take them ready made.
func TestColumnsThatFitOneLoad(t *testing.T) {
	says := func(n int, more ...job.Change) bool {
		columns := piece("aisle", "column", map[string]any{"height_mm": 1500, "count": n, "recipe": "2x11@9",
			"accents": 0, "built": "site", "colours": shares("coral", 1.0)})
		for _, note := range plan.Make(made(append(columns, more...)...)).Notes {
			if strings.Contains(note.Text, "fits one car load") {
				assert.Equal(t,
					"aisle: built at the venue. Made at home, it all fits one car load and saves time there.",
					note.Text)
				return true
			}
		}
		return false
	}
	// A column of 10 quads of 9-inch balloons holds 40 x 6.3 = 250 litres of air; a car holds 1200.
	assert.True(t, says(1))
	assert.False(t, says(8), "8 x 250 litres are more than a car")
	assert.False(t, says(1, job.Put("piece/aisle", "built", "home")), "it is made at home already")
	assert.False(t, says(1, job.Put("brief", "travel", "none")), "nothing travels")
	assert.False(t, says(1, job.Put("piece/aisle", "height_mm", nil), job.Put("piece/aisle", "kind", "garland")),
		"a garland begins at home")
}
