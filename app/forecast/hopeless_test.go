package forecast_test

import (
	"testing"

	"garlandry/app/plan"
	"garlandry/app/plan/task"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

// hopeless returns the wedding with one person less and 90 minutes for five hours of work.
func hopeless(t *testing.T) job.Job {
	t.Helper()
	return job.Try(readJob(t, "orchard-wedding"),
		[]job.Change{job.Put("brief", "in", "2027-06-19T12:30"), job.Put("member/ana", "removed", true)})
}

// If time is short, musts come first: nobody starts a could while they can work on a must, and the arch is done long
// before the table.
func TestMustsComeFirstIfTimeIsShort(t *testing.T) {
	j := hopeless(t)
	c := clockOf(t, j, longBefore(t, j), nil)
	require.Equal(t, "late", c.Verdict)
	arch, there := c.Task("card/dress/arch")
	require.True(t, there)
	for _, key := range []string{"card/fix/aisle", "card/make/table", "card/fix/table", "card/shine"} {
		later, there := c.Task(key)
		require.True(t, there, key)
		assert.GreaterOrEqual(t, later.End, arch.End, "%s, done at %s, before the arch, done at %s", later.Title,
			c.At(later.End), c.At(arch.End))
	}
	assert.GreaterOrEqual(t, c.Musts, c.Odds)
	sooner := job.Try(j, []job.Change{job.Put("piece/aisle", "removed", true), job.Put("piece/table", "removed", true)})
	alone := clockOf(t, sooner, longBefore(t, j), nil)
	last, _ := alone.Task("card/dress/arch")
	assert.LessOrEqual(t, arch.End, last.End+20, "about as early as with nothing else to do")
}

// If no fix is enough, fixes still bring the end forward, are sorted by the end, and say that they are not enough.
func TestInsufficientFixesBringTheEndForward(t *testing.T) {
	t.Parallel()
	j := hopeless(t)
	p, now := plan.Make(j), longBefore(t, j)
	before := clockOf(t, j, now, nil)
	require.Less(t, before.Odds, 0.01)
	fixes := before.Fixes(j, &p, now)
	require.NotEmpty(t, fixes)
	reached := false
	for i, fix := range fixes {
		reached = reached || fix.Reaches
		then := clockOf(t, job.Try(j, fix.Changes()), now, nil)
		assert.Equal(t, fix.Forecast.Ninety, then.Ninety, "%s: it gives the end it offered", fix.Key)
		assert.LessOrEqual(t, then.Ninety, before.Ninety-30, "%s brings less than half an hour", fix.Key)
		if i > 0 && fix.Forecast.Odds == fixes[i-1].Forecast.Odds && !fix.Reaches {
			assert.GreaterOrEqual(t, fix.Forecast.Ninety, fixes[i-1].Forecast.Ninety, "the earliest end first")
		}
	}
	assert.False(t, reached, "an hour and a half is never enough")
}

// Everything was ticked and compared half as long again as the table says. Every kind of work becomes slower, but not
// by the whole difference.
func TestPlannedAgainstActualAfterTheEvent(t *testing.T) {
	j := readJob(t, "orchard-wedding")
	cards := plan.Make(j).Cards
	start := at(t, j.Brief.In)
	minute := start
	for _, card := range cards {
		if card.Count > 0 || card.Place != task.Site || card.HandsMin > 1 {
			j = later(t, j, "Mara", minute, job.Put(card.Key, "done", true))
			continue
		}
		j = later(t, j, "Mara", minute, job.Put(card.Key, "taken", "Mara"))
		minute += int64(card.MinutesBy["practised"]*1.5 + 0.5)
		j = later(t, j, "Mara", minute, job.Put(card.Key, "done", true))
	}
	p := plan.Make(j)
	c := clockOf(t, j, at(t, j.Brief.Doors)+24*60, nil)
	assert.False(t, c.Planned())
	list := c.Compare(&j, &p)
	require.NotEmpty(t, list)
	for _, compared := range list {
		assert.True(t, compared.Practised, compared.Label)
		assert.InDelta(t, 1.5, compared.Actual/compared.Planned, 0.15, "%s: to whole minutes", compared.Label)
		assert.Greater(t, compared.Factor, 1.0, compared.Label)
		assert.Less(t, compared.Factor, compared.Actual/compared.Planned, "%s: pulled towards the table", compared.Label)
	}
}

// With a day hours late, since all loads are fetched, somebody who comes at nine works, and the end is no later than
// without her. Her job's own plan ends sooner than that of the smaller job, and hopeless odds of both plans say
// nothing.
func TestEverybodyWorksOnAHopelessDay(t *testing.T) {
	t.Parallel()
	j := bringAll(readJob(t, "school-fete"))
	with := clockOf(t, j, longBefore(t, j), nil)
	without := clockOf(t, job.Try(j, []job.Change{job.Put("member/kitty", "removed", true)}), longBefore(t, j), nil)
	require.Less(t, with.Musts, 0.05)
	work := map[int]int{} // minutes before the take-down
	for _, planned := range with.Tasks {
		for _, s := range planned.Spells {
			if planned.Place == task.Site {
				work[s.Person] += s.To - s.From
			}
		}
	}
	assert.Greater(t, work[with.Number("Kitty")], 30)
	assert.LessOrEqual(t, with.Ninety, without.Ninety-20, "Kitty, from nine, saves time")
}
