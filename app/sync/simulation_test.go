package sync_test

import (
	"context"
	"flag"
	"runtime"
	"strings"
	gosync "sync"
	"sync/atomic"
	"testing"

	"garlandry/app/sync/simulation"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	simulationFirst = flag.Uint64("simulation.first", 1, "first seed of the simulation")
	simulationSeeds = flag.Uint64("simulation.seeds", 0, "how many seeds; 0: 300, 100 with -short, 30 in wasm")
)

// seeds returns how many seeds to run. The default takes about ten seconds; .ci/run sets the flag to 20,000. A wasm
// build is twenty times slower and runs fewer.
func seeds() uint64 {
	switch {
	case *simulationSeeds > 0:
		return *simulationSeeds
	case runtime.GOOS == "js":
		return 30
	case testing.Short():
		return 100
	}
	return 300
}

// simulate runs seeds in parallel, starting at first. It returns the error of the lowest seed that failed.
func simulate(first, seeds uint64, options simulation.Options) (sum simulation.Result, failed error) {
	var mu gosync.Mutex
	var workers gosync.WaitGroup
	var next atomic.Uint64
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	lowest := first + seeds
	for range runtime.GOMAXPROCS(0) {
		workers.Add(1)
		go func() {
			defer workers.Done()
			for ctx.Err() == nil {
				seed := first + next.Add(1) - 1
				if seed >= first+seeds {
					return
				}
				result, err := simulation.Run(seed, options)
				mu.Lock()
				sum.Add(result)
				if err != nil && seed < lowest {
					lowest, failed = seed, err
					stop()
				}
				mu.Unlock()
			}
		}()
	}
	workers.Wait()
	return sum, failed
}

func TestSimulationLosesNothing(t *testing.T) {
	sum, err := simulate(*simulationFirst, seeds(), simulation.Options{})
	t.Logf("%d seeds: %v", seeds(), sum)
	require.NoError(t, err)
	for _, rule := range simulation.Unkept() {
		t.Logf("NOT CHECKED, since app/sync does not keep it yet: %s", rule)
	}
	if seeds() >= 100 {
		assert.Empty(t, sum.Missing(), "every kind of fault occurs")
	}
}

// The simulation finds each rule that is broken on purpose.
func TestSimulationNoticesSabotage(t *testing.T) {
	for sabotage, want := range map[simulation.Sabotage]string{
		simulation.NoParents:           "that its author had seen",
		simulation.NoReupload:          "is lost",
		simulation.NoDedup:             "never settle",
		simulation.EarlyAck:            "is lost",
		simulation.SharedToken:         "is lost",
		simulation.JournalDropsEarly:   "is lost",
		simulation.LoadReplaces:        "is lost",
		simulation.QuarantineForgotten: "is lost",
		simulation.NoDepth:             "deep",
		simulation.NamesAnew:           "counts twice",
		simulation.ReopensLinks:        "has access again",
		simulation.NoThirtyDays:        "archived more than thirty days ago",
		simulation.TokenReadLast:       "fits a storage of revision",
	} {
		t.Run(string(sabotage), func(t *testing.T) {
			for seed := uint64(1); seed <= 150; seed++ { // the first one mostly fails
				if _, err := simulation.Run(seed, simulation.Options{Sabotage: sabotage}); err != nil &&
					strings.Contains(err.Error(), want) {
					t.Logf("seed %d notices it", seed)
					return
				}
			}
			assert.Fail(t, "150 seeds noticed nothing")
		})
	}
}

func TestSimulationIsReproducible(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		first, err := simulation.Run(seed, simulation.Options{})
		require.NoError(t, err)
		second, err := simulation.Run(seed, simulation.Options{})
		require.NoError(t, err)
		assert.Equal(t, first, second, "seed %d", seed)
		assert.NotZero(t, first[simulation.Ops])
	}
}
