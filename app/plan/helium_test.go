package plan_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc"
	"garlandry/calc/measure"
)

// floats returns the plan of a number of bouquets of eight helium balloons.
func floats(bouquets, sizeIn int, toIn float64, more ...job.Change) plan.Plan {
	changes := piece("float", "bouquets", map[string]any{"count": bouquets, "each": 8, "gas": "helium",
		"size_in": sizeIn, "to_in": toIn, "colours": shares("coral", 1.0)})
	changes = append(changes, job.Put("colour/coral", "sizes", []int{5, 11, 16, 24, 36}),
		job.Put("brief", "units", "metric"))
	return plan.Make(made(append(changes, more...)...))
}

// The plan gives the calculator's floating hours (rounded down), weight to hold a bouquet, and number of cylinders.
func TestHeliumAsInTheCalculator(t *testing.T) {
	plain := func(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }
	lift, _ := calc.Find("lift")
	for _, row := range []struct {
		name     string
		bouquets int
		sizeIn   int
		toIn     float64
		venueC   float64
		altitude float64 // m
	}{
		{"an 11-inch blown full", 3, 11, 11, 22, 0},
		{"a hot hall high up", 3, 11, 11, 30, 1500},
		{"large ones, in many cylinders", 40, 36, 35, 22, 0},
		{"a 16-inch", 5, 16, 16, 18, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := floats(row.bouquets, row.sizeIn, row.toIn, job.Put("brief", "venue_c", row.venueC),
				job.Put("brief", "altitude_mm", row.altitude*1000))
			result, err := lift.Compute(nil, map[string]string{
				"size": strconv.Itoa(row.sizeIn), "to": plain(row.toIn) + "in", "temp": plain(row.venueC) + "C",
				"altitude": plain(row.altitude) + "m", "humidity": "50", "extra_g": "1.5", "cylinder_l": "10",
				"cylinder_bar": "200",
			}, measure.Metric)
			require.NoError(t, err)
			lines := packLines(p)
			hours := plain(math.Floor(result.Number("float_h")))
			assert.Contains(t, asJSON(t, p.Notes), "float for about "+hours+" hours")
			holds := math.Ceil(8*result.Number("ballast_g")/5) * 5
			assert.Contains(t, lines["pack/helium/weights"].Reason,
				", "+measure.FormatMass(holds, measure.Metric)+" or more each")
			need := math.Ceil(float64(8*row.bouquets) / result.Number("per_cylinder"))
			assert.EqualValues(t, need, lines["pack/helium/cylinder"].Need)
		})
	}
	assert.Greater(t, packLines(floats(40, 36, 35))["pack/helium/cylinder"].Need, 1)
	assert.Equal(t, 2,
		packLines(floats(3, 11, 11, job.Put("override/supply/cylinder-l", "value", 1)))["pack/helium/cylinder"].Need,
		"274 litres from 175 a cylinder")
}

// A balloon that lifts itself but not its ribbon does not float.
func TestTheRibbonCounts(t *testing.T) {
	light, heavy := floats(1, 11, 9), floats(1, 11, 9, job.Put("override/supply/ribbon-g", "value", 4))
	assert.NotContains(t, asJSON(t, light.Notes), "do not float")
	assert.Contains(t, asJSON(t, heavy.Notes), "do not float")
	own := floats(1, 11, 11, job.Put("override/rubber/11", "value", 14))
	assert.Contains(t, asJSON(t, own.Notes), "do not float", "an own weight of the balloon counts too")
}
