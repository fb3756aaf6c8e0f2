package forecast_test

import (
	"slices"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/testdata/long"
)

// background is a cache with background work, as on a phone. It queues the work and does it on request.
type background struct {
	forecast.Cache
	keys  []string
	works []func(pause func())
}

func newBackground() *background {
	k := &background{}
	k.Later = func(key string, work func(pause func())) {
		k.keys, k.works = append(k.keys, key), append(k.works, work)
	}
	return k
}

// pass does the queued work, once for each key, and counts its pauses.
func (k *background) pass() (paused int) {
	keys, works := k.keys, k.works
	k.keys, k.works = nil, nil
	for i, work := range works {
		if !slices.Contains(keys[:i], keys[i]) {
			work(func() { paused++ })
		}
	}
	return paused
}

// settled does background work until the forecast of a job, of a try at a spot, needs none any more.
func (k *background) settled(j job.Job, p *plan.Plan, now int64, spot string) *forecast.Forecast {
	for {
		if f := k.Forecast(j, p, now, 0, spot); len(k.works) == 0 {
			return f
		}
		k.pass()
	}
}

// ticked returns the job with its loading ticked.
func ticked(j job.Job) job.Job {
	j.State = j.State.Clone()
	j.State.Apply(job.Rec{Op: job.Op{ID: "tick", Device: "d", Number: 1, Kind: job.Set, Entity: "card/load", Field: "done",
		Value: []byte("true")}, Effective: 1})
	return j
}

// A page that only mentions the clock gets the earlier forecast at once and the new one after the background work. A
// server, which does no background work, returns the new one at once.
func TestSoonGivesTheEarlierThenTheNewForecast(t *testing.T) {
	t.Parallel()
	before := readJob(t, "reading-room")
	after := ticked(before)
	p, q := plan.Make(before), plan.Make(after)
	now := longBefore(t, before)
	k := newBackground()
	first := k.Soon(before, &p, now, 0)
	assert.True(t, first.Rough, "there is no earlier forecast")
	assert.Positive(t, k.pass())
	fair := k.Soon(before, &p, now, 0)
	assert.False(t, fair.Rough)
	assert.Equal(t, writeClock(forecast.New(before, p, now, forecast.Fair, nil)), writeClock(fair))
	assert.Positive(t, k.pass())
	settled := k.Soon(before, &p, now, 0)
	assert.NotSame(t, fair, settled)
	assert.Empty(t, k.works, "no work is queued")
	_, there := settled.Task("card/load")
	require.True(t, there)
	assert.Same(t, settled, k.Soon(after, &q, now, 0), "the earlier forecast")
	assert.Same(t, settled, k.Forecast(after, &q, now, 0, ""),
		"the clock's own page does not wait either")
	assert.Equal(t, 2, len(k.keys))
	assert.Equal(t, k.keys[0], k.keys[1], "both queue the same work")
	k.pass()
	better := k.Soon(after, &q, now, 0)
	assert.NotSame(t, settled, better)
	_, there = better.Task("card/load")
	assert.False(t, there, "it includes the tick")
	assert.Same(t, better, k.Forecast(after, &q, now, 0, ""), "every page says the same")
	assert.Empty(t, k.works)

	server := forecast.Cache{AtOnce: true}
	assert.Equal(t, writeClock(settled), writeClock(server.Soon(before, &p, now, 0)))
	assert.Equal(t, writeClock(better), writeClock(server.Soon(after, &q, now, 0)), "the same on the server")
}

func TestPreparedForecastIsReady(t *testing.T) {
	t.Parallel()
	j := readJob(t, "orchard-wedding")
	p, now := plan.Make(j), longBefore(t, j)
	k, server := newBackground(), forecast.Cache{AtOnce: true}
	k.Prepare(j, &p, now, 0)
	require.Len(t, k.works, 1)
	k.pass()
	assert.False(t, k.Forecast(j, &p, now, 0, "").Rough)
	require.Len(t, k.works, 1, "a better one")
	k.pass()
	assert.Equal(t, writeClock(server.Forecast(j, &p, now, 0, "")), writeClock(k.Forecast(j, &p, now, 0, "")))
	k.Prepare(j, &p, now, 0)
	k.Prepare(job.Job{ID: "empty", State: job.NewState()}, &plan.Plan{}, now, 0)
	assert.Empty(t, k.works, "one forecast is there, and a job without cards gets none")
}

// Background work gives the same forecast, what-if and advice as work at once.
func TestBackgroundWorkGivesTheSameResults(t *testing.T) {
	for _, name := range []string{"orchard-wedding", "reading-room"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if name == "reading-room" {
				long.Test(t, "a job with more cards gives the same result in the background")
			}
			backgroundGivesTheSame(t, readJob(t, name))
		})
	}
}

func backgroundGivesTheSame(t *testing.T, j job.Job) {
	t.Helper()
	p, now := plan.Make(j), longBefore(t, j)
	tried := forecast.WhatIf(j, 1, 30)
	k, server := newBackground(), forecast.Cache{AtOnce: true}
	quick := k.Forecast(j, &p, now, 0, "")
	_ = k.Forecast(tried, &p, now, 0, "?")
	help, looking := k.Advice(k.Forecast(j, &p, now, 0, ""), j, &p, now)
	assert.Nil(t, help)
	assert.True(t, looking)
	assert.Greater(t, k.pass(), 600)
	first := k.Forecast(j, &p, now, 0, "")
	assert.NotSame(t, quick, first)
	_ = k.Forecast(tried, &p, now, 0, "?")
	assert.Greater(t, k.pass(), 1000)
	c := k.Forecast(j, &p, now, 0, "")
	assert.NotSame(t, first, c)
	assert.Equal(t, writeClock(server.Forecast(j, &p, now, 0, "")), writeClock(c))
	assert.Equal(t, writeClock(server.Forecast(tried, &p, now, 0, "?")), writeClock(k.Forecast(tried, &p, now, 0, "?")))
	help, looking = k.Advice(k.Forecast(j, &p, now, 0, ""), j, &p, now)
	assert.Nil(t, help)
	assert.True(t, looking, "a plan to compare with is ready")
	assert.Greater(t, k.pass(), 1000)
	help, looking = k.Advice(k.Forecast(j, &p, now, 0, ""), j, &p, now)
	assert.False(t, looking)
	at := help
	want, looking := server.Advice(server.Forecast(j, &p, now, 0, ""), j, &p, now)
	assert.False(t, looking)
	require.Equal(t, len(want.Fixes), len(help.Fixes))
	for i := range want.Fixes {
		assert.Equal(t, want.Fixes[i].Key, help.Fixes[i].Key)
		assert.Equal(t, writeClock(want.Fixes[i].Forecast), writeClock(help.Fixes[i].Forecast))
	}
	assert.Equal(t, want.Cuts, help.Cuts)

	after := ticked(j)
	q := plan.Make(after)
	k.Forecast(after, &q, now, 0, "")
	k.pass()
	help, looking = k.Advice(k.Forecast(after, &q, now, 0, ""), after, &q, now)
	assert.Same(t, at, help, "the earlier advice stays until the new one is ready")
	assert.True(t, looking)

	pressed := at.Fixes[0]
	after = job.Try(j, pressed.Changes())
	q = plan.Make(after)
	k.Forecast(after, &q, now, 0, "")
	k.pass()
	help, looking = k.Advice(k.Forecast(after, &q, now, 0, ""), after, &q, now)
	assert.True(t, looking)
	if help != nil {
		for i := range help.Fixes {
			assert.NotEqual(t, pressed.Key, help.Fixes[i].Key, "what was pressed is not offered again")
		}
	}
}

// More people or earlier access never give worse odds than the job itself.
func TestWhatIfIsNeverWorse(t *testing.T) {
	t.Parallel()
	for _, name := range goldenJobs() {
		j := readJob(t, name)
		p, now := plan.Make(j), longBefore(t, j)
		k := newBackground()
		c := k.settled(j, &p, now, "")
		for _, try := range [][2]int{{1, 0}, {0, 15}, {2, 30}, {4, 120}} {
			tried := forecast.WhatIf(j, try[0], try[1])
			quick := k.Forecast(tried, &p, now, 0, "?")
			assert.GreaterOrEqual(t, quick.Odds, c.Odds-0.12, "%s: %v", name, try) // three standard errors of 160 runs
			assert.GreaterOrEqual(t, k.settled(tried, &p, now, "?").Odds, c.Odds, "%s: %v", name, try)
		}
	}
}

// TestAChangedJobIsPlannedAnewAtOnce checks that the clock does not go on with the earlier forecast when more than work
// was done: its figures are those of another job.
func TestAChangedJobIsPlannedAnewAtOnce(t *testing.T) {
	t.Parallel()
	before := readJob(t, "reading-room")
	p, now := plan.Make(before), longBefore(t, before)
	k := newBackground()
	settled := k.settled(before, &p, now, "")
	for _, row := range []struct {
		name   string
		change job.Change
	}{
		{"access", job.Put("brief", "in", moment(at(t, before.Brief.In)+60))},
		{"doors", job.Put("brief", "doors", moment(at(t, before.Brief.Doors)-30))},
		{"skill", job.Put("member/tomasz", "skill", "practised")},
		{"hours", job.Put("member/tomasz", "from", moment(at(t, before.Brief.In)+60))},
	} {
		after := job.Try(before, []job.Change{row.change})
		q := plan.Make(after)
		got := k.Forecast(after, &q, now, 0, "")
		assert.True(t, got.Rough, "%s: a first look", row.name)
		assert.NotSame(t, settled, got, row.name)
		k.settled(after, &q, now, "")
		again := k.settled(before, &p, now, "") // as after an undo
		assert.Equal(t, settled.Verdict, again.Verdict, row.name)
		assert.InDelta(t, settled.Odds, again.Odds, 0.2, row.name)
		settled = again
	}
}
