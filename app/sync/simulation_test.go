package sync_test

import (
	"flag"
	"testing"

	"garlandry/app/sync/simulation"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	simulationFirst = flag.Uint64("simulation.first", 1, "first seed of the simulation")
	simulationSeeds = flag.Uint64("simulation.seeds", 0, "how many seeds; 0: 2000, or 100 with -short")
)

func TestSimulationLosesNothing(t *testing.T) {
	seeds := *simulationSeeds
	if seeds == 0 {
		seeds = 2000
	}
	var sum simulation.Result
	for seed := *simulationFirst; seed < *simulationFirst+seeds; seed++ {
		result, err := simulation.Run(seed, simulation.Options{})
		require.NoError(t, err)
		sum.Add(result)
	}
	t.Logf("%d seeds: %+v", seeds, sum)
	if seeds >= 100 {
		assert.NotZero(t, sum.Restores*sum.Silent*sum.Clones*sum.Revoked*sum.Ended*sum.Lost*sum.Kills*sum.Conflicts*sum.Forks*sum.Quarantined, "every kind of bad luck was there")
	}
}
