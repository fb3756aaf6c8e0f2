package sync_test

import (
	"flag"
	"runtime"
	"strings"
	"testing"

	"garlandry/app/sync/simulation"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	simulationFirst = flag.Uint64("simulation.first", 1, "first seed of the simulation")
	simulationSeeds = flag.Uint64("simulation.seeds", 0, "how many seeds; 0: 2000, or 100 with -short")
)

// seeds is how many to play: all on a native build, a sample of them where everything is twenty times slower.
func seeds() uint64 {
	switch {
	case *simulationSeeds > 0:
		return *simulationSeeds
	case testing.Short() || runtime.GOOS == "js":
		return 100
	}
	return 2000
}

func TestSimulationLosesNothing(t *testing.T) {
	var sum simulation.Result
	for seed := *simulationFirst; seed < *simulationFirst+seeds(); seed++ {
		result, err := simulation.Run(seed, simulation.Options{})
		require.NoError(t, err)
		sum.Add(result)
	}
	t.Logf("%d seeds: %+v", seeds(), sum)
	if seeds() >= 100 {
		assert.NotZero(t, sum.Restores*sum.Silent*sum.Clones*sum.Revoked*sum.Ended*sum.Lost*sum.Kills*sum.Conflicts*sum.Forks*sum.Quarantined, "every kind of bad luck was there")
	}
}

// A simulation that finds nothing proves nothing unless it finds what is broken on purpose.
func TestSimulationNoticesSabotage(t *testing.T) {
	for sabotage, want := range map[simulation.Sabotage]string{
		simulation.NoParents:  "that its author had seen",
		simulation.NoReupload: "is lost",
		simulation.NoDedup:    "never come to rest",
		simulation.EarlyAck:   "is lost",
	} {
		t.Run(string(sabotage), func(t *testing.T) {
			for seed := uint64(1); seed <= 40; seed++ {
				if _, err := simulation.Run(seed, simulation.Options{Sabotage: sabotage}); err != nil && strings.Contains(err.Error(), want) {
					t.Logf("seed %d notices it", seed)
					return
				}
			}
			assert.Fail(t, "40 seeds noticed nothing")
		})
	}
}

func TestASeedPlaysTheSameAgain(t *testing.T) {
	first, err := simulation.Run(7, simulation.Options{})
	require.NoError(t, err)
	second, err := simulation.Run(7, simulation.Options{})
	require.NoError(t, err)
	assert.Equal(t, first, second)
	assert.NotZero(t, first.Ops)
}
