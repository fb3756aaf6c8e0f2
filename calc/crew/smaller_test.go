package crew_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// TestMoreIsNeverWorse gives random jobs one more thing or person and plans them anew, without the plan before. The
// odds fall by at most three standard errors of a difference between two shares of 1,000 runs, 3 sqrt(2/4/1000).
func TestMoreIsNeverWorse(t *testing.T) {
	changes := map[string]func(crew.Job) crew.Job{
		"a ladder": moreOf("ladder", 1), "two ladders": moreOf("ladder", 2), "a pump": moreOf("pump", 1),
		"a person":    moreHands(crew.Person{Key: "more"}),
		"half a help": moreHands(crew.Person{Key: "more", Free: []crew.Interval{{From: 30, To: 90}}}),
	}
	worst := map[string]float64{}
	for seed := range uint64(25) {
		job := ranked(randomJob(seed, 6+int(seed%12), true), seed)
		job.Doors += 120
		job.Windows[crew.Site] = []crew.Interval{{From: 20, To: job.Doors}}
		options := crew.Options{Seed: seed, Schedules: 100, Runs: 1000, Smaller: 16}
		_, before, err := crew.Settle(job, options)
		require.NoError(t, err)
		for name, change := range changes {
			_, after, err := crew.Settle(change(job), options)
			require.NoError(t, err)
			worst[name] = max(worst[name], before.Done-after.Done)
			assert.GreaterOrEqual(t, after.Done, before.Done-0.067, "seed %d, %s", seed, name)
			if before.Done < 0.02 && after.Done < 0.02 { // then only the end tells
				assert.LessOrEqual(t, after.Ninety, before.Ninety+5, "seed %d, %s", seed, name)
			}
		}
	}
	t.Log("the odds fall at worst by", worst)
}
