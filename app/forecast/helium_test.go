package forecast_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
)

// TestHeliumIsFilledLate checks that cards that fill with helium do not begin before the plan's lead, as long as the
// work fits, and that waiting costs no odds: they are at least those of a plan that may fill all day, less three
// standard errors of the difference of two simulations.
func TestHeliumIsFilledLate(t *testing.T) {
	seen := 0
	for _, name := range []string{"hilltop-wedding", "ferry-lobby", "attic-birthday", "reading-room"} {
		j := readJob(t, name)
		p := plan.Make(j)
		f := forecast.New(j, p, longBefore(t, j), forecast.Usual, nil)
		if !f.Planned() || p.HeliumLead == 0 || p.Window.Verdict != "fits" {
			continue
		}
		for i := range f.Tasks {
			piece, _ := j.Piece(f.Tasks[i].Piece)
			if strings.HasPrefix(f.Tasks[i].Key, "card/make/") && piece.Gas == "helium" && piece.Kind == "bouquets" {
				seen++
				assert.GreaterOrEqual(t, f.Tasks[i].Start, f.Doors-int(p.HeliumLead), name)
			}
		}
		free := job.Try(j, []job.Change{job.Put("override/helium/spare-min", "value", 240)})
		early := forecast.New(free, plan.Make(free), longBefore(t, j), forecast.Usual, nil)
		require.True(t, early.Planned(), name)
		odds := (f.Odds + early.Odds) / 2
		slack := 3 * math.Sqrt(2*math.Max(odds*(1-odds), 1.0/float64(f.Runs))/float64(f.Runs))
		assert.GreaterOrEqual(t, f.Odds, early.Odds-slack, name)
		t.Logf("%s: %.3f late, %.3f any time", name, f.Odds, early.Odds)
	}
	assert.Positive(t, seen)
}
