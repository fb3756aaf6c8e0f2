package forecast_test

import (
	"fmt"
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

// later returns the job after somebody made changes at a local time, which is UTC in these tests.
func later(t testing.TB, j job.Job, who string, minute int64, changes ...job.Change) job.Job {
	t.Helper()
	state := j.State.Clone()
	for i, c := range changes {
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		id := fmt.Sprintf("%s-%d-%d-%d", who, minute, i, len(state.Registers)+len(state.Tally(c.Entity).Entries))
		state.Apply(job.Rec{Op: job.Op{ID: id, Device: who, Number: uint64(minute)*100 + uint64(i), Version: job.Version,
			Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta}, Effective: minute*60_000 + int64(i),
			Seq: 1, Author: job.Author{Role: job.Helper, Name: who}})
	}
	return job.Read(j.ID, state, j.Private)
}

func clockOf(t testing.TB, j job.Job, now int64, before *forecast.Forecast) *forecast.Forecast {
	t.Helper()
	return forecast.New(j, plan.Make(j), now, forecast.Usual, before)
}

func TestAllTickedIsDone(t *testing.T) {
	j := readJob(t, "reading-room")
	now := at(t, j.Brief.In)
	var ticks []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place != task.TakeDown {
			ticks = append(ticks, job.Put(c.Key, "done", true))
		}
	}
	j = later(t, j, "Ines", now, ticks...)
	c := clockOf(t, j, now+10, nil)
	assert.Equal(t, "done", c.Verdict)
	assert.Equal(t, "All done; doors 11:30.", c.Sentence)
	assert.Equal(t, 1.0, c.Odds)
	p := plan.Make(j)
	assert.Empty(t, c.Fixes(j, &p, now))
	assert.Empty(t, c.Cuts(&p))
}

func TestPlannedTimesAreConsistent(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	p := plan.Make(j)
	c := clockOf(t, j, longBefore(t, j), nil)
	cards, busy := cardsByKey(p), map[int][]forecast.Spell{}
	for _, planned := range c.Tasks {
		card := cards[planned.Key]
		for _, before := range task.Keys(card.After) {
			if first, there := c.Task(before); there {
				assert.GreaterOrEqual(t, planned.Start, first.End, "%s comes after %s", planned.Title, first.Title)
			}
		}
		if card.Place == task.Site {
			assert.GreaterOrEqual(t, planned.Start, c.In, "nobody starts before access: %s", planned.Title)
		}
		if card.HandsMin > 1 && len(planned.Spells) > 0 {
			assert.GreaterOrEqual(t, len(c.Names(&planned)), card.HandsMin, planned.Title)
		}
		if planned.StartBy != forecast.NoTime && c.Finish <= c.Doors {
			assert.GreaterOrEqual(t, planned.StartBy, planned.Start, "a plan on time starts every card in time: %s",
				planned.Title)
		}
		for _, s := range planned.Spells {
			for _, other := range busy[s.Person] {
				assert.True(t, s.To <= other.From || s.From >= other.To, "%s does one thing at a time", c.People[s.Person].Name)
			}
			busy[s.Person] = append(busy[s.Person], s)
			if c.People[s.Person].Name == "Bea" {
				assert.GreaterOrEqual(t, c.At(s.From), job.Moment("2027-05-08T08:00"), "Bea comes at eight")
			}
		}
	}
	assert.Equal(t, writeClock(c), writeClock(clockOf(t, j, longBefore(t, j), nil)), "the same job gives the same clock")
}

func TestForecastNeedsTimesAndPeople(t *testing.T) {
	window := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T11:00")}
	rows := []struct {
		name    string
		job     job.Job
		verdict string
		text    string
	}{
		{"nothing known", made(), "unknown", "Set when you get access"},
		{"no doors", garland(3048, window[0]), "unknown", "Set when the doors open"},
		{"no piece", made(window...), "unknown", "Add a piece"},
		{"doors before access", garland(3048, window[1], job.Put("brief", "in", "2027-05-08T12:00")), "unknown",
			"must open after"},
		{"the event is over",
			garland(3048, append(window, job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Bea"))...), "past",
			"The doors have been open since 11:00"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			now := int64(0)
			if row.verdict == "past" {
				now = at(t, "2027-05-08T17:00")
			}
			c := clockOf(t, row.job, now, nil)
			assert.Equal(t, row.verdict, c.Verdict)
			assert.Contains(t, c.Sentence+strings.Join(c.Missing, " "), row.text)
			assert.False(t, c.Planned())
		})
	}
}

func TestWhatIf(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	now := longBefore(t, j)
	before := clockOf(t, j, now, nil)
	for _, tried := range []job.Job{forecast.WhatIf(j, 1, 0), forecast.WhatIf(j, 0, 60), forecast.WhatIf(j, 2, 60)} {
		p := plan.Make(j)
		assert.Greater(t, forecast.New(tried, p, now, forecast.Usual, nil).Odds, before.Odds)
	}
	assert.Len(t, j.Crew, 3, "the job itself is unchanged")
	assert.Equal(t, writeClock(before),
		writeClock(forecast.New(forecast.WhatIf(j, 0, 0), plan.Make(j), now, forecast.Usual, nil)))
}

// Tomasz counts a cluster every nine minutes, far slower than the table.
func TestOwnRates(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	start := at(t, "2027-05-05T18:30")
	j = later(t, j, "Ines", start, job.Put("card/shop", "done", true))
	for i := range int64(12) {
		j = later(t, j, "Tomasz", start+9*i, job.Count("card/make/door", 1))
	}
	p := plan.Make(j)
	c := clockOf(t, j, start+120, nil)
	list := c.Compare(&j, &p)
	require.Len(t, list, 1)
	compared := list[0]
	assert.Equal(t, "fill", compared.Kind)
	assert.False(t, compared.Practised, "Tomasz is a beginner")
	assert.InDelta(t, 11*9, compared.Actual, 1e-6, "the first of twelve clusters has no time")
	assert.InDelta(t, 119.6*11/26, compared.Planned, 1e-6, "eleven of the card's 26 clusters")
	assert.Greater(t, compared.Actual, compared.Planned*1.3)
	assert.Greater(t, compared.Factor, 1.03)
	assert.Less(t, compared.Factor, compared.Actual/compared.Planned, "shrunk towards the table")

	changes := forecast.AdoptRates(&j, &p, list)
	require.NotEmpty(t, changes)
	for _, change := range changes {
		require.NoError(t, job.CheckChange(change))
		assert.True(t, strings.HasSuffix(change.Entity, "/beginner"), "only for beginners: %s", change.Entity)
	}
	after := job.Try(j, changes)
	p2 := plan.Make(after)
	assert.Greater(t, cardsByKey(p2)["card/make/desk"].MinutesBy["beginner"],
		cardsByKey(p)["card/make/desk"].MinutesBy["beginner"]*1.03)
	assert.Equal(t, cardsByKey(p)["card/make/desk"].MinutesBy["practised"],
		cardsByKey(p2)["card/make/desk"].MinutesBy["practised"])
	again := clockOf(t, after, start+120, nil).Compare(&after, &p2)
	require.Len(t, again, 1)
	assert.True(t, again[0].Used)
	assert.Empty(t, forecast.AdoptRates(&after, &p2, again), "one job does not count twice")
}

// Tomasz makes five kinds of clusters at the table's pace on average, but very unevenly. His spread is learnt and his
// rate stays. Four kinds are too few to learn from.
func TestSpreadIsLearnt(t *testing.T) {
	t.Parallel()
	start := at(t, "2027-05-05T18:30")
	paces := []struct {
		card    string
		minutes int64
	}{
		{"card/make/door", 14}, {"card/make/ring", 2}, {"card/make/desk", 9}, {"card/make/columns", 1},
		{"card/accents/ring", 5},
	}
	compare := func(cards int) (job.Job, plan.Plan, forecast.Comparison) {
		j := later(t, readJob(t, "reading-room"), "Ines", start, job.Put("card/shop", "done", true))
		from := start
		for _, row := range paces[:cards] {
			for range 9 {
				j = later(t, j, "Tomasz", from, job.Count(row.card, 1))
				from += row.minutes
			}
			from += 60 // a pause that is not work
		}
		p := plan.Make(j)
		list := clockOf(t, j, from, nil).Compare(&j, &p)
		require.Len(t, list, 1)
		return j, p, list[0]
	}
	_, _, few := compare(4)
	assert.Equal(t, 1.0, few.Strays)
	j, p, five := compare(5)
	require.Greater(t, five.Strays, 1.5)
	five.Factor = 1 // the spread is adopted even if the rate stays
	changes := forecast.AdoptRates(&j, &p, []forecast.Comparison{five})
	require.Len(t, changes, 2, "the value and its note")
	assert.Equal(t, "override/stray/fill/beginner", changes[0].Entity)
	after := job.Try(j, changes)
	q := plan.Make(after)
	again := clockOf(t, after, start+900, nil).Compare(&after, &q)
	require.Len(t, again, 1)
	assert.True(t, again[0].Used, "and not again")
}

// Each kind of work has its own spread. Beginners' is never below that of practised people.
func TestEveryKindOfWorkHasASpread(t *testing.T) {
	table := map[string]figures.Figure{}
	for _, f := range figures.All() {
		table[f.Key] = f
	}
	for _, kind := range figures.KindsOfWork() {
		slow, fast := table["stray/"+kind+"/beginner"], table["stray/"+kind+"/practised"]
		require.NotEmpty(t, slow.Label, kind)
		assert.GreaterOrEqual(t, slow.Default, fast.Default, kind)
		assert.Positive(t, fast.Default, kind)
		assert.Equal(t, figures.FromMemory, fast.Source.Mark, kind)
	}
	j := readJob(t, "reading-room")
	wide := job.Try(j, []job.Change{job.Put("override/stray/shape/beginner", "value", 100)})
	assert.Greater(t, clockOf(t, wide, longBefore(t, j), nil).Ninety, clockOf(t, j, longBefore(t, j), nil).Ninety)
}

// Every row of the time table belongs to exactly one kind of work.
func TestEveryRowOfTheTimeTableIsLearnt(t *testing.T) {
	for _, f := range figures.All() {
		if !strings.HasPrefix(f.Key, "minutes/") {
			continue
		}
		kinds := 0
		for _, kind := range figures.KindsOfWork() {
			compared := forecast.Comparison{Kind: kind, Practised: strings.HasSuffix(f.Key, "/practised")}
			if compared.Covers(f.Key) {
				kinds++
			}
		}
		assert.Equal(t, 1, kinds, f.Key)
	}
}
