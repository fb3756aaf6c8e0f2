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

// Where the work leaves no time to wait, helium is still filled as late as costs nothing. Nobody's odds or safe bet are
// worse than with a filling as early as it suits, four hours before the doors.
func TestHeliumWaitsOnATightDayToo(t *testing.T) {
	t.Parallel()
	for name, row := range map[string]struct {
		card string
		most int // minutes before the doors
	}{
		"ferry-lobby":      {"card/make/desk", 90},
		"allotment-supper": {"card/make/lanterns", 75},
	} {
		j := bringAll(readJob(t, name)) // with fewer loads the ferry lobby has time
		p := plan.Make(j)
		require.Equal(t, "tight", p.Window.Verdict, name)
		f := clockOf(t, j, longBefore(t, j), nil)
		filled, there := f.Task(row.card)
		require.True(t, there, name)
		assert.GreaterOrEqual(t, filled.Start, f.Doors-row.most, name)
		sooner := job.Try(j, []job.Change{job.Put("override/helium/spare-min", "value", 240)})
		early := clockOf(t, sooner, longBefore(t, j), nil)
		before, _ := early.Task(row.card)
		assert.Less(t, before.Start, filled.Start, name)
		for _, odds := range [][2]float64{{early.Odds, f.Odds}, {early.Musts, f.Musts}} {
			assert.True(t, max(odds[0], odds[1]) < 0.05 || odds[1] > odds[0]-1.5/float64(f.Runs), "%s: %v", name, odds)
		}
		again := forecast.New(j, p, longBefore(t, j), forecast.Patient, f)
		kept, _ := again.Task(row.card)
		assert.GreaterOrEqual(t, kept.Start, f.Doors-row.most, "%s, with the plan before", name)
		assert.LessOrEqual(t, f.Ninety, max(early.Ninety, f.Doors), name)
	}
}

// The balloons float long enough if they are filled when the lead says, but who fills them leaves before. The hours of
// the day are added by hand.
func TestTheClockSaysWhenPlannedFillingIsTooEarly(t *testing.T) {
	t.Parallel()
	j := job.Try(readJob(t, "allotment-supper"), []job.Change{job.Put("piece/lanterns", "size_in", 11),
		job.Put("piece/lanterns", "to_in", 11)}) // large enough to float
	p := plan.Make(j)
	require.Len(t, p.Floats(), 1)
	hours := p.Floats()[0].Hours
	until := at(t, j.Brief.Doors) - int64(p.HeliumLead) + int64(60*hours) - 10
	clock := func(minute int64) string { return string(moment(minute))[11:16] }
	clockUntil := func(until int64, leaves string) *forecast.Forecast {
		return clockOf(t, job.Try(j, []job.Change{job.Put("brief", "until", moment(until)),
			job.Put("member/bea", "name", "Bea"), job.Put("member/bea", "skill", "beginner"),
			job.Put("member/bea", "home", true), job.Put("member/bea", "to", leaves)}), longBefore(t, j), nil)
	}
	assert.Empty(t, clockUntil(until, "2027-08-21T23:00").Sinks(), "filled at the lead")
	f := clockUntil(until, "2027-08-21T16:05")
	filled, there := f.Task("card/make/lanterns")
	require.True(t, there)
	at := f.Origin + int64(filled.Start)
	require.Equal(t, "15:27", clock(at), "nobody could fill them at 16:15")
	require.Len(t, f.Sinks(), 1)
	says := f.Sinks()[0]
	assert.Contains(t, says, ": filled at 15:27 they float until "+clock(at+int64(60*hours)))
	assert.Contains(t, says, "; needed until "+clock(until))
	assert.Empty(t, clockUntil(until-100, "2027-08-21T16:05").Sinks(), "long enough")
}
