package forecast_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/testdata/long"
)

// moreBudget is enough to compare. Three standard errors of a difference between two shares of 1,000 independent runs
// are 3 sqrt(2/4/1000) = 0.067. The runs are shared, so the error is smaller.
var moreBudget = forecast.Budget{Schedules: 100, Runs: 1000, Smaller: 16, Holds: 4}

const threeErrors = 0.067

// A second pump or ladder, a bigger car, one more helper or later doors make neither the odds nor the end of random
// jobs worse, whose pieces made at home are all brought. Each is planned afresh, as on another phone. A bigger car is
// compared where it changes neither what is made at the venue nor what nobody can do.
func TestMoreNeverMakesTheForecastWorse(t *testing.T) {
	t.Parallel()
	seeds := []uint64{1165, 1172, 1198, 1227, 1253} // a pump, a ladder or a helper made these worse once
	for seed := range jobsToTry() {
		seeds = append(seeds, seed)
	}
	worst, compared := map[string]float64{}, map[string]int{}
	for _, seed := range seeds {
		j := anyTightJob(t, seed)
		now := longBefore(t, j)
		litres := 800 + 400*int(seed%8)
		j = later(t, j, "Dora", now, append(broughtAll(j), job.Put("kit/pump", "count", 1),
			job.Put("kit/car", "litres", litres))...)
		p := plan.Make(j)
		before := forecast.New(j, p, now, moreBudget, nil)
		doors := moment(at(t, j.Brief.Doors) + 20)
		for name, change := range map[string][]job.Change{
			"a pump":       {job.Put("kit/pump", "count", 2)},
			"a ladder":     {job.Put("kit/ladder", "count", 2)},
			"a bigger car": {job.Put("kit/car", "litres", 2*litres)},
			"a helper": {job.Put("member/more", "name", "More"), job.Put("member/more", "skill", "beginner"),
				job.Put("member/more", "from", j.Brief.In), job.Put("member/more", "order", 99)},
			"later doors": {job.Put("brief", "doors", doors)},
		} {
			more := later(t, j, "Dora", now+1, change...)
			q := plan.Make(more)
			if len(q.BuiltOnSite()) != len(p.BuiltOnSite()) {
				continue // other pieces are made at home now: another job
			}
			after := forecast.New(more, q, now, moreBudget, nil)
			if len(after.Blocked) != len(before.Blocked) {
				continue // there is more to do now, or less
			}
			compared[name]++
			worst[name] = max(worst[name], before.Odds-after.Odds)
			assert.GreaterOrEqual(t, after.Odds, before.Odds-threeErrors, "seed %d, %s", seed, name)
			assert.GreaterOrEqual(t, after.Musts, before.Musts-threeErrors, "seed %d, %s: must-haves", seed, name)
			if max(before.Odds, after.Odds) < 0.02 && after.Musts < before.Musts+threeErrors {
				// only the end tells, unless the musts gained by it
				assert.LessOrEqual(t, after.Ninety, before.Ninety+10, "seed %d, %s", seed, name)
			}
		}
	}
	t.Log("the odds fall at worst by", worst, "in", compared)
}

// jobsToTry returns how many random jobs the law is checked on.
func jobsToTry() uint64 {
	if long.Wanted() {
		return 300
	}
	return 20
}
