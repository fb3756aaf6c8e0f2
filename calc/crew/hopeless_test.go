package crew_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// TestOneMoreNeverEndsHopelessWorkLater gives random jobs doors so early that the odds are next to none, about two
// standard deviations before the middle. One more person then ends nothing later: nine in ten end at most 2 minutes
// later, which the search takes as equal. It compares plans in as many runs.
func TestOneMoreNeverEndsHopelessWorkLater(t *testing.T) {
	t.Parallel()
	compared, others := 0, 0
	for seed := range uint64(60) {
		job := randomJob(seed, 6+int(seed%12), true) // all musts
		job.Doors += 120
		job.Windows[crew.Site] = []crew.Interval{{From: 20, To: job.Doors}}
		options := crew.Options{Seed: seed, Schedules: 60, Runs: 200, Smaller: 8}
		_, usual, err := crew.Settle(job, options)
		require.NoError(t, err)
		job.Doors = usual.Half - (usual.Ninety-usual.Half)*3/2
		_, before, err := crew.Settle(job, options)
		require.NoError(t, err)
		more := crew.Person{Key: "more", Free: []crew.Interval{{From: 60, To: 600}}}
		_, after, err := crew.Settle(moreHands(more)(job), options)
		require.NoError(t, err)
		if max(before.Musts, after.Musts) >= 0.05 {
			others++
			continue
		}
		compared++
		assert.LessOrEqual(t, after.Ninety, before.Ninety+2, "seed %d: %.3f, %.3f", seed, before.Musts, after.Musts)
	}
	assert.Greater(t, compared, 5, "%d others have hope", others)
	t.Log(compared, "compared,", others, "others have hope")
}
