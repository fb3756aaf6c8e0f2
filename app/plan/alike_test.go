package plan_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
)

// Colours of one piece that are less than 12 apart by CIEDE2000 get a hint; the difference itself is checked against
// published pairs in calc/colour. So do those that are as near to one who does not tell red from green, as Viénot,
// Brettel and Mollon have it; calc/colour has their figures.
func TestColoursThatLookAlikeGetAHint(t *testing.T) {
	for _, row := range []struct {
		name, one, other, finish string
		want                     string
	}{
		{"two sands", "#d9b88a", "#dcc096", "standard", "door: guests will hardly tell one and other apart."},
		{"coral and ink", "#e8604c", "#1f3a68", "standard", ""},
		{"moss and rust", "#6f7d3c", "#a8622d", "standard",
			"one and other look alike to guests who do not tell red from green."},
		{"the same colour in another finish", "#d9b88a", "#d9b88a", "mirror", ""},
		{"the same colour in pastel, as matt", "#d9b88a", "#d9b88a", "pastel",
			"door: guests will hardly tell one and other apart."},
	} {
		t.Run(row.name, func(t *testing.T) {
			changes := piece("door", "garland", map[string]any{"length_mm": 3000, "accents": 0,
				"colours": shares("one", 1.0, "other", 1.0)})
			for id, value := range map[string]string{"one": row.one, "other": row.other} {
				changes = append(changes, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "value", value),
					job.Put("colour/"+id, "sizes", []int{11}))
			}
			changes = append(changes, job.Put("colour/other", "finish", row.finish))
			found := ""
			for _, n := range plan.Make(made(changes...)).Notes {
				if strings.Contains(n.Text, "hardly tell") || strings.Contains(n.Text, "look alike") {
					found += n.Text
				}
			}
			assert.Equal(t, row.want, found)
		})
	}
}

// A pair of colours is named once, though a piece with accents lists them the other way round: small balloons first.
func TestColoursThatLookAlikeAreNamedOnce(t *testing.T) {
	colours := shares("moss", 1.0, "rust", 1.0)
	changes := append(piece("door", "garland", map[string]any{"length_mm": 3000, "accents": 0, "colours": colours}),
		piece("desk", "garland", map[string]any{"length_mm": 3000, "accents": 4, "colours": colours,
			"accent_colours": shares("rust", 1.0)})...)
	for id, value := range map[string]string{"moss": "#6f7d3c", "rust": "#a8622d"} {
		changes = append(changes, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "value", value),
			job.Put("colour/"+id, "sizes", []int{5, 11}))
	}
	said := 0
	for _, n := range plan.Make(made(changes...)).Notes {
		if strings.Contains(n.Text, "look alike") {
			said++
		}
	}
	assert.Equal(t, 1, said)
}
