package forecast_test

import (
	"fmt"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tables returns a job on its day with ten table pieces, 20 minutes of a practised pair of hands.
func tables(more ...job.Change) job.Job {
	day := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T14:00"),
		job.Put("member/a", "name", "Ines"), job.Put("member/a", "skill", "practised"),
		job.Put("member/b", "name", "Bea"), job.Put("member/b", "skill", "practised")}
	day = append(day, piece("tables", "tables", map[string]any{"count": 10, "each": 8, "built": "site",
		"colours": shares("coral", 1.0)})...)
	return made(append(day, more...)...)
}

const tableCard = "card/make/tables"

// compared returns the comparisons of a job after its work.
func compared(t testing.TB, j job.Job) []forecast.Comparison {
	t.Helper()
	p := plan.Make(j)
	return forecast.New(j, p, at(t, j.Brief.Doors)-60, briefly, nil).Compare(&j, &p)
}

// TestCountingAfterTheBatchTeachesNothing takes 18 minutes for a batch, counts it with two taps at its end, and plans a
// wall of 288 balloons with what was learnt.
func TestCountingAfterTheBatchTeachesNothing(t *testing.T) {
	t.Parallel()
	j := tables()
	begin := at(t, j.Brief.In)
	wall := piece("wall", "wall", map[string]any{"width_mm": 3658, "height_mm": 2438, "built": "site",
		"colours": shares("coral", 1.0)})
	before := job.Try(j, wall)
	for _, pause := range []int64{0, 20_000, 59_000, 61_000} {
		after := laterMS(t, j, "Ines", (begin+18)*60_000, job.Count(tableCard, 5))
		after = laterMS(t, after, "Ines", (begin+18)*60_000+pause, job.Count(tableCard, 5))
		require.Equal(t, 10, after.Made(tableCard))
		list := compared(t, after)
		assert.Empty(t, list, "taps %d ms apart", pause)
		p := plan.Make(after)
		assert.Empty(t, forecast.AdoptRates(&after, &p, list))

		onTheDay := job.Try(after, wall)
		q := plan.Make(onTheDay)
		require.GreaterOrEqual(t, cardsByKey(q)["card/make/wall"].Count*4, 288)
		c := forecast.New(onTheDay, q, begin+20, briefly, nil)
		was := forecast.New(before, plan.Make(before), begin+20, briefly, nil)
		now, there := c.Task("card/make/wall")
		require.True(t, there)
		usual, _ := was.Task("card/make/wall")
		assert.InDelta(t, handMinutes(usual), handMinutes(now), 3, "taps %d ms apart", pause)
		assert.NotEmpty(t, now.Spells)
	}
}

// handMinutes sums the minutes that people spend on a task.
func handMinutes(entry *forecast.Task) (sum int) {
	for _, s := range entry.Spells {
		sum += s.To - s.From
	}
	return sum
}

// laterMS returns the job after somebody made changes at a time in milliseconds, which is UTC in these tests.
func laterMS(t testing.TB, j job.Job, who string, ms int64, changes ...job.Change) job.Job {
	t.Helper()
	state := j.State.Clone()
	for i, c := range changes {
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		id := fmt.Sprintf("%s-%d-%d-%d", who, ms, i, len(state.Registers)+len(state.Tally(c.Entity).Entries))
		state.Apply(job.Rec{Op: job.Op{ID: id, Device: who, Number: uint64(ms)*100 + uint64(i), Version: job.Version,
			Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta}, Effective: ms + int64(i),
			Seq: 1, Author: job.Author{Role: job.Helper, Name: who}})
	}
	return job.Read(j.ID, state, j.Private)
}

// step is what somebody does at a minute after access.
type step struct {
	minute  float64
	who     string
	changes []job.Change
}

func counted(minute float64, n int64) step { return by("Ines", minute, job.Count(tableCard, n)) }

func by(who string, minute float64, changes ...job.Change) step { return step{minute, who, changes} }

// waysOfCounting lists how people count, and which minutes that shows of which share of the card of 20 minutes. Where
// the time is unknown, there are 0.
func waysOfCounting() []wayOfCounting {
	take := func(who string, minute float64) step { return by(who, minute, job.Put(tableCard, "taken", who)) }
	tick := func(who string, minute float64) step {
		return by(who, minute, job.Put(tableCard, "done", true), job.Put(tableCard, "have", 10))
	}
	took := func(minute float64, minutes any) step { return by("Ines", minute, job.Put(tableCard, "took", minutes)) }
	eye := func(minute float64, n int) step {
		return by("Ines", minute, job.Change{Kind: job.Stocktake, Entity: tableCard,
			Value: job.Put("", "", job.Counted{N: int64(n)}).Value})
	}
	return []wayOfCounting{
		{"four counts, the first without a time",
			[]step{counted(4, 2), counted(8, 2), counted(12, 2), counted(16, 2)}, 12, 0.6},
		{"one pause between two counts may be anything", []step{counted(9, 5), counted(18, 5)}, 0, 0},
		{"taken and counted", []step{take("Ines", 0), counted(9, 5), counted(18, 5)}, 18, 1},
		{"taken and counted twice at the end", []step{take("Ines", 0), counted(18, 5), counted(18.5, 5)}, 18.5, 1},
		{"taken and ticked", []step{take("Ines", 0), tick("Ines", 18)}, 18, 1},
		{"taken and counted by eye", []step{take("Ines", 0), eye(21, 10)}, 21, 1},
		{"taken by one, ticked by another", []step{take("Bea", 0), tick("Ines", 18)}, 0, 0},
		{"taken and ticked at once", []step{take("Ines", 0), tick("Ines", 0.5)}, 0, 0},
		{"taken, forgotten and ticked", []step{take("Ines", 0), tick("Ines", 150)}, 0, 0},
		{"ticked and not taken", []step{tick("Ines", 18)}, 0, 0},
		{"piles counted after the batch",
			[]step{counted(40, 2), counted(41.1, 3), counted(42.4, 3), counted(43.7, 2)}, 0, 0},
		{"a break between counts", []step{counted(4, 2), counted(8, 2), counted(70, 2), counted(74, 2)}, 8, 0.4},
		{"a small part of the batch", []step{counted(4, 1), counted(6, 1), counted(8, 1)}, 0, 0},
		{"a mistake taken off again",
			[]step{counted(4, 2), counted(8, 2), counted(12, 5), counted(12.2, -3), counted(16, 2)}, 12, 0.6},
		{"work on another card between", []step{counted(4, 3), counted(8, 3),
			by("Ines", 12, job.Count("card/fix/tables", 2)), counted(18, 3), counted(24, 1)}, 16, 0.7},
		{"two cards counted together", []step{counted(4, 3), counted(9, 3), counted(14, 3),
			by("Ines", 14.5, job.Count("card/fix/tables", 2))}, 0, 0},
		{"typed in", []step{counted(50, 5), counted(50.1, 5), took(51, 20)}, 20, 1},
		{"typed in, whatever the taps say", []step{counted(4, 3), counted(8, 3), counted(12, 4), took(13, 20)}, 20, 1},
		{"typed in for half, and more made later", []step{counted(9, 5), took(10, 8), counted(40, 5)}, 8, 0.5},
		{"typed in and taken back", []step{counted(50, 5), counted(50.1, 5), took(51, 20), took(52, nil)}, 0, 0},
		{"planned by hand",
			[]step{by("Ines", 0, job.Put(tableCard, "minutes", 40)), take("Ines", 0), tick("Ines", 18)}, 0, 0},
	}
}

// wayOfCounting is one of [waysOfCounting].
type wayOfCounting struct {
	name          string
	steps         []step
	actual, share float64
}

func TestWhichTimesAreKnown(t *testing.T) {
	t.Parallel()
	for _, row := range waysOfCounting() {
		j := tables()
		begin := at(t, j.Brief.In) * 60_000
		for _, s := range row.steps {
			j = laterMS(t, j, s.who, begin+int64(s.minute*60_000), s.changes...)
		}
		table := cardsByKey(plan.Make(j))[tableCard].MinutesBy["practised"]
		var fill []forecast.Comparison
		for _, c := range compared(t, j) {
			if c.Kind == "fill" {
				fill = append(fill, c)
			}
		}
		if row.actual == 0 {
			assert.Empty(t, fill, row.name)
			continue
		}
		if assert.Len(t, fill, 1, row.name) {
			assert.InDelta(t, row.actual, fill[0].Actual, 0.02, row.name)
			assert.InDelta(t, table*row.share, fill[0].Planned, 1e-6, row.name)
		}
	}
}
