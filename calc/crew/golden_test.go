package crew_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

var update = flag.Bool("update", false, "write testdata/plans.golden anew")

// TestSamePlanEverywhere checks that the same seed gives the same plan and the same odds on server and phone. Native
// and wasm tests read the same file.
func TestSamePlanEverywhere(t *testing.T) {
	var b strings.Builder
	for seed := range uint64(6) {
		job := readingRoom(20 + 6*int(seed))
		if seed%2 == 1 {
			job = randomJob(seed, 14, true)
		}
		search, err := crew.NewSearch(job, seed, 300)
		require.NoError(t, err)
		s := search.Improve(300)
		f := crew.Odds(s, seed, 500)
		fmt.Fprintf(&b, "seed %d: finish %d, tried %d, proven %t, done in %d of 500 runs, half by %d, ninety by %d\n", seed,
			s.Finish, s.Tried, s.Proven, int(f.Done*500+0.5), f.Half, f.Ninety)
		for i, slot := range s.Slots {
			fmt.Fprintf(&b, "%s %d %d %v waited for %v, critical %d\n", slot.Task, slot.Start, slot.End, slot.Spells,
				slot.WaitedFor, int(f.Critical[i].Share*500+0.5))
		}
	}
	if *update {
		require.NoError(t, os.WriteFile("testdata/plans.golden", []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile("testdata/plans.golden")
	require.NoError(t, err, "write it with -update")
	assert.Equal(t, string(want), b.String())
}
