package forecast_test

import (
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tripsOf lists the trips of a plan's clock.
func tripsOf(f *forecast.Forecast) (list []*forecast.Task) {
	for i := range f.Tasks {
		if strings.HasPrefix(f.Tasks[i].Key, "card/trip/") {
			list = append(list, &f.Tasks[i])
		}
	}
	return list
}

// The wedding's garland, brought all the same, takes several loads of a car of 1600 litres. It goes up after the last
// of them has landed, and only the car's driver fetches them, one after the other.
func TestAPieceGoesUpAfterItsLastLoad(t *testing.T) {
	t.Parallel()
	for id, name := range map[string]string{"pia": "Pia", "lia": "Lia"} {
		goesUpLast(t, id, name)
	}
}

func goesUpLast(t *testing.T, driver, name string) {
	t.Helper()
	j := job.Try(bringAll(readJob(t, "hilltop-wedding")), []job.Change{job.Put("kit/car", "litres", 1600),
		job.Put("kit/car", "longest_mm", 1900), job.Put("kit/car", "driver", driver)})
	f := clockOf(t, j, longBefore(t, j), nil)
	fix, there := f.Task("card/fix/vow")
	require.True(t, there)
	trips := tripsOf(f)
	require.NotEmpty(t, trips)
	cards := cardsByKey(plan.Make(j))
	for i, trip := range trips {
		assert.Equal(t, []string{name}, f.Names(trip))
		if strings.Contains(cards[trip.Key].Steps[0], "Vow garland") {
			assert.GreaterOrEqual(t, fix.Start, trip.End, trip.Key)
		}
		if i > 0 {
			assert.GreaterOrEqual(t, trip.Start, trips[i-1].End)
		}
	}
}

// What no car takes is made at the venue, so the smaller car does not make the wedding end sooner for free: the work at
// home is in the plan of the day.
func TestASmallCarMovesTheWorkToTheVenue(t *testing.T) {
	t.Parallel()
	j := readJob(t, "hilltop-wedding")
	f := clockOf(t, j, longBefore(t, j), nil)
	in := at(t, j.Brief.In) - f.Origin
	for _, key := range []string{"card/make/vow", "card/join/vow", "card/accents/vow"} {
		entry, there := f.Task(key)
		require.True(t, there, key)
		assert.GreaterOrEqual(t, int64(entry.Start), in, key)
	}
	fix, _ := f.Task("card/fix/vow")
	join, _ := f.Task("card/join/vow")
	assert.GreaterOrEqual(t, fix.Start, join.End)
}

// Two cars with a driver each fetch at the same time. With one driver only one of them comes.
func TestTwoCarsFetchAtTheSameTime(t *testing.T) {
	t.Parallel()
	j := job.Try(bringAll(readJob(t, "ferry-lobby")), []job.Change{job.Put("kit/hatch", "litres", 1600),
		job.Put("kit/hatch", "longest_mm", 1900)})
	f := clockOf(t, j, longBefore(t, j), nil)
	one, first := f.Task("card/trip/2")
	two, second := f.Task("card/trip/hatch-2")
	require.True(t, first && second)
	assert.Equal(t, []string{"Nora"}, f.Names(one))
	assert.Equal(t, []string{"Emil"}, f.Names(two))
	assert.True(t, one.Start < two.End && two.Start < one.End, "%d-%d and %d-%d", one.Start, one.End, two.Start,
		two.End)
	alone := job.Try(j, []job.Change{job.Put("kit/hatch", "driver", "nora")})
	f = clockOf(t, alone, longBefore(t, j), nil)
	for _, trip := range tripsOf(f) {
		assert.NotContains(t, trip.Key, "hatch")
		assert.Equal(t, []string{"Nora"}, f.Names(trip))
	}
}

// A beginner of whom nobody says that they drive never fetches a load.
func TestABeginnerNeverFetchesALoad(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"hilltop-wedding", "ferry-lobby", "school-fete"} {
		j := bringAll(readJob(t, name))
		changes := []job.Change{job.Put("brief", "in", j.Brief.In)}
		skilled := map[string]bool{}
		for _, m := range j.Crew {
			changes = append(changes, job.Put("member/"+m.ID, "drives", false))
			skilled[m.Name] = m.Skill == "practised"
		}
		for _, k := range j.Kit {
			if k.Kind == "car" {
				changes = append(changes, job.Put("kit/"+k.ID, "driver", ""), job.Put("kit/"+k.ID, "litres", 1500))
			}
		}
		j = job.Try(j, changes)
		f := clockOf(t, j, longBefore(t, j), nil)
		for _, trip := range tripsOf(f) {
			for _, who := range f.Names(trip) {
				assert.True(t, skilled[who], "%s: %s fetches", name, who)
			}
		}
	}
}

// Where nobody on site may drive, the clock names the card, and somebody who drives is among the changes.
func TestSomebodyMayDrive(t *testing.T) {
	t.Parallel()
	j := job.Try(bringAll(readJob(t, "hilltop-wedding")), []job.Change{job.Put("kit/car", "litres", 1600),
		job.Put("kit/car", "longest_mm", 1900), job.Put("kit/car", "driver", ""),
		job.Put("member/pia", "drives", false), job.Put("member/pia", "skill", "beginner")})
	p := plan.Make(j)
	f := clockOf(t, j, longBefore(t, j), nil)
	fix := f.FindFix(j, &p, "drives/otto")
	require.NotNil(t, fix)
	after := job.Try(j, fix.Changes())
	g := clockOf(t, after, longBefore(t, j), nil)
	require.True(t, g.Planned(), g.Sentence)
	for _, trip := range tripsOf(g) {
		assert.Equal(t, []string{"Otto"}, g.Names(trip))
	}
}

// The drive of the brief is the clock's, and without a car there is none.
func TestTheClockDrivesAsTheBriefSays(t *testing.T) {
	t.Parallel()
	j := readJob(t, "hilltop-wedding")
	assert.Equal(t, 35, clockOf(t, j, longBefore(t, j), nil).Drive)
	home := job.Try(j, []job.Change{job.Put("brief", "travel", "none")})
	f := clockOf(t, home, longBefore(t, j), nil)
	assert.Zero(t, f.Drive)
	assert.Empty(t, tripsOf(f))
}
