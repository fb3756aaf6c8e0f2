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

// TestTheKitsCylindersFillFirst checks that rated cylinders of the kit fill balloons before any more are packed, and
// that feet speak of cubic feet. Fifty cubic feet fill a hundred full 11-inch of half a cubic foot, a few less with the
// pressure of the rubber.
func TestTheKitsCylindersFillFirst(t *testing.T) {
	kit := func(id string, cuFt float64, n int) []job.Change {
		return []job.Change{job.Put("kit/"+id, "name", id), job.Put("kit/"+id, "kind", "cylinder"),
			job.Put("kit/"+id, "count", n), job.Put("kit/"+id, "gas_l", cuFt*28.316846592)}
	}
	need := func(bouquets int, kit []job.Change, more ...job.Change) int {
		return packLines(floats(bouquets, 11, 11, append(kit, more...)...))["pack/helium/cylinder"].Need
	}
	assert.Zero(t, need(12, kit("rented", 50, 1)), "96 balloons")
	small := job.Put("override/supply/cylinder-l", "value", 2) // about 25 balloons
	assert.Equal(t, 1, need(15, kit("rented", 50, 1), small), "120 balloons")
	assert.Equal(t, 2, need(18, kit("rented", 50, 1), small), "144 balloons")
	assert.Zero(t, need(18, append(kit("rented", 50, 1), kit("spare", 30, 1)...), small))
	assert.Zero(t, need(18, kit("rented", 40, 2), small))
	feet := packLines(floats(15, 11, 11, append(kit("rented", 50, 1), job.Put("brief", "units", "imperial"))...))
	assert.Contains(t, feet["pack/helium/cylinder"].Reason, "cu ft of gas for 120 balloons, beyond what your own")
	assert.Contains(t, feet["pack/helium/cylinder"].Reason, "from cylinders of 6")
	assert.NotContains(t, feet["pack/helium/cylinder"].Reason, "litres")
}

// A balloon that lifts itself but not its ribbon does not float.
func TestTheRibbonCounts(t *testing.T) {
	light, heavy := floats(1, 11, 9), floats(1, 11, 9, job.Put("override/supply/ribbon-g", "value", 4))
	assert.NotContains(t, asJSON(t, light.Notes), "do not float")
	assert.Contains(t, asJSON(t, heavy.Notes), "do not float")
	own := floats(1, 11, 11, job.Put("override/rubber/11", "value", 14))
	assert.Contains(t, asJSON(t, own.Notes), "do not float", "an own weight of the balloon counts too")
}

// TestHeliumFloatsAsLongAsItIsNeeded checks the hours of floating from the planned filling, not from the doors, against
// the time until which the balloons are needed, and that gel is packed when the plan advises it.
func TestHeliumFloatsAsLongAsItIsNeeded(t *testing.T) {
	with := func(more ...job.Change) (notes string, gel int, p plan.Plan) {
		more = append(more, job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T14:30"),
			job.Put("brief", "venue_c", 20))
		p = floats(3, 11, 11, more...)
		return asJSON(t, p.Notes), packLines(p)["pack/helium/gel"].Need, p
	}
	notes, gel, p := with()
	// 24 balloons and 3 bunches, half as much again, the last look and half an hour to spare, in five minutes.
	lead := 1.5*(24*p.Figure("minutes/helium/beginner")+3*p.Figure("minutes/set-out/beginner")) +
		p.Figure("minutes/tidy/beginner") + 30
	assert.InDelta(t, math.Ceil(lead/5)*5, p.HeliumLead, 1e-9)
	from := 14*60 + 30 - int(p.HeliumLead)
	begins := strconv.Itoa(from/60) + ":" + strconv.Itoa(100 + from%60)[1:]
	assert.Contains(t, notes, ": if filled at "+begins+", until ")
	assert.Contains(t, notes, "enough, needed until 18:30", "four hours after the doors")
	assert.Zero(t, gel)

	notes, gel, _ = with(job.Put("brief", "until", "2027-05-09T02:00"))
	assert.Contains(t, notes, "; needed until 02:00 on Sun. Put drying gel inside, which is on the pack list")
	assert.Equal(t, 1, gel)
	notes, gel, _ = with(job.Put("brief", "until", "2027-05-09T02:00"), job.Put("override/float/own", "value", 3))
	assert.Contains(t, notes, "enough, needed until 02:00 on Sun")
	assert.Zero(t, gel)
	notes, _, _ = with(job.Put("brief", "until", "2027-05-12T02:00"))
	assert.Contains(t, notes, "Even with drying gel they sink early")

	hours := func(until string) string { n, _, _ := with(job.Put("brief", "until", until)); return n }
	assert.Contains(t, hours("2027-05-08T12:00"), "needed until 18:30", "a time before the doors says nothing")
}
