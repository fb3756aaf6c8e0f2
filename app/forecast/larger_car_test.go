package forecast_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
)

// A larger car never makes a plan worse: with each size from 300 to 8000 litres the odds fall by no more than three
// standard errors, and the safe end is at most 5 minutes later. Every garland that a smaller car leaves for the venue
// stays there until its loads are worth it.
func TestALargerCarNeverMakesThePlanWorse(t *testing.T) {
	t.Parallel()
	for name, car := range map[string]string{"hilltop-wedding": "car", "ferry-lobby": "estate", "reading-room": "car"} {
		var before *forecast.Forecast
		for _, litres := range []int{300, 800, 1200, 1600, 2400, 4000, 8000} {
			j := job.Try(readJob(t, name), []job.Change{job.Put("kit/"+car, "litres", litres)})
			f := forecast.New(j, plan.Make(j), longBefore(t, j), moreBudget, nil)
			require.True(t, f.Planned(), "%s, %d litres", name, litres)
			t.Logf("%s, %d litres: odds %.3f, must-haves %.3f, safe end %d, doors %d", name, litres, f.Odds, f.Musts,
				f.Ninety, f.Doors)
			if before != nil {
				assert.GreaterOrEqual(t, f.Odds, before.Odds-threeErrors, "%s, %d litres", name, litres)
				assert.GreaterOrEqual(t, f.Musts, before.Musts-threeErrors, "%s, %d litres: must-haves", name, litres)
				assert.LessOrEqual(t, f.Ninety, before.Ninety+5, "%s, %d litres", name, litres)
			}
			before = f
		}
	}
}

// A fix that makes a piece at home has it brought, and it is not offered where its loads make the plan later.
func TestWhatAFixMakesAtHomeIsBrought(t *testing.T) {
	t.Parallel()
	j := readJob(t, "hilltop-wedding")
	j = later(t, j, "Dora", longBefore(t, j), job.Put("kit/car", "litres", 1600), job.Put("piece/vow", "built", "site"),
		job.Put("brief", "in", "2027-07-17T12:15"))
	p, now := plan.Make(j), longBefore(t, j)
	f := clockOf(t, j, now, nil)
	fix := f.FindFix(j, &p, "home/vow")
	require.NotNil(t, fix)
	then := plan.Make(job.Try(j, fix.Changes()))
	assert.Empty(t, then.BuiltOnSite())
	assert.Contains(t, cardsByKey(then), "card/trip/2")
	for _, offered := range f.Fixes(j, &p, now) {
		assert.False(t, strings.Contains("+"+offered.Key+"+", "+home/vow+"), "%s", offered.Key)
	}
}
