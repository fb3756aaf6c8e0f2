package plan_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// A wall of quads of 9.5 in is made at home and carried as strings. The trips agree with the volume of
// the balloons at a random packing of 0.55 to 0.64 (see calc/cargo). Each string has a bag of its own.
func TestTripsAgreeWithTheBags(t *testing.T) {
	car := []job.Change{job.Put("kit/van", "kind", "car"), job.Put("kit/van", "name", "Van"),
		job.Put("kit/van", "count", 1), job.Put("kit/van", "litres", 1600)}
	for _, row := range []struct {
		name         string
		width, built any
	}{
		{"small", 1500, "home"}, {"large", 4000, "home"}, {"very large", 9000, "home"},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(bringAll(made(append(piece("wall", "wall", map[string]any{"width_mm": row.width,
				"height_mm": 2000, "recipe": "2x11@9.5", "built": row.built, "accents": 0,
				"colours": shares("coral", 1.0)}), car...)...)))
			c := only(t, p)
			bags := float64(packLines(p)["pack/supply/clear-bags"].Need)
			airL := float64(c.Balloons) * math.Pi / 6 * math.Pow(9.5*25.4, 3) / 1e6
			load := cards(p)["card/load"]
			trips := 1.0
			for key, card := range cards(p) {
				if strings.HasPrefix(key, "card/trip/") {
					trips++
					assert.GreaterOrEqual(t, card.MinutesBy["practised"], 2.0*20+2*15,
						"there and back, load and carry in")
				}
			}
			assert.GreaterOrEqual(t, trips, airL/0.64/1600)
			strings := float64(len(c.Sections))
			perDrive := math.Floor(1600 / (airL / strings / 0.55)) // strings travel whole
			assert.LessOrEqual(t, trips, math.Ceil(strings/perDrive))
			assert.Equal(t, strings, bags)
			if trips > 1 {
				assert.Contains(t, load.Steps[len(load.Steps)-1], "Plan "+strconv.Itoa(int(trips))+" trips")
			}
		})
	}
}
