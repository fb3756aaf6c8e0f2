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

// tookFor returns the tables after all ten were made in so many minutes, of 20 by the table.
func tookFor(t testing.TB, minutes float64, more ...job.Change) job.Job {
	j := tables(more...)
	return laterMS(t, j, "Ines", at(t, j.Brief.In)*60_000, job.Count(tableCard, 10),
		job.Put(tableCard, "took", minutes))
}

func fillOf(t testing.TB, j job.Job) *forecast.Comparison {
	t.Helper()
	for _, c := range compared(t, j) {
		if c.Kind == "fill" {
			return &c
		}
	}
	require.Fail(t, "no comparison of filling")
	return nil
}

// TestNoRateGoesBeyondAThirdOrThreeTimesUnasked types in times near to and far from the table's 20 minutes.
func TestNoRateGoesBeyondAThirdOrThreeTimesUnasked(t *testing.T) {
	t.Parallel()
	own := []job.Change{job.Put("override/minutes/duplet/11/practised", "value", 1.4),
		job.Put("override/minutes/duplet/11/practised", "note", "timed in May"),
		job.Put("override/minutes/twist/practised", "value", 0.84)}
	for _, row := range []struct {
		name    string
		minutes float64
		own     []job.Change
		beyond  bool
		duplet  [2]float64 // least and most of the row for a duplet of 11-inch, 0.5 in the table
	}{
		{"a little slower", 25, nil, false, [2]float64{0.51, 0.62}},
		{"a little faster", 15, nil, false, [2]float64{0.38, 0.49}},
		{"half", 10, nil, false, [2]float64{0.26, 0.45}},
		{"a quarter", 5, nil, true, [2]float64{0.17, 0.17}},
		{"a minute", 1, nil, true, [2]float64{0.17, 0.17}},
		{"five times", 100, nil, true, [2]float64{1.5, 1.5}},
		{"a day", 1440, nil, true, [2]float64{1.5, 1.5}},
		{"twice one's own figure, which is nearly three times", 112, own, true, [2]float64{1.5, 1.5}},
	} {
		j := tookFor(t, row.minutes, row.own...)
		p := plan.Make(j)
		fill := fillOf(t, j)
		assert.Equal(t, row.beyond, fill.Beyond, row.name)
		list := []forecast.Comparison{*fill}
		if row.beyond {
			assert.Empty(t, forecast.Chosen(list, "all"), row.name)
		}
		for _, c := range forecast.AdoptRates(&j, &p, list) {
			require.NoError(t, job.CheckChange(c))
		}
		after := plan.Make(job.Try(j, forecast.AdoptRates(&j, &p, forecast.Chosen(list, "fill/practised"))))
		value := after.Figure("minutes/duplet/11/practised")
		assert.GreaterOrEqual(t, value, row.duplet[0], row.name)
		assert.LessOrEqual(t, value, row.duplet[1], row.name)
		for _, f := range after.Figures {
			if strings.HasPrefix(f.Key, "minutes/") {
				assert.GreaterOrEqual(t, f.Value, f.Default/3-1e-9, "%s: %s", row.name, f.Key)
				assert.LessOrEqual(t, f.Value, f.Default*3+1e-9, "%s: %s", row.name, f.Key)
			}
		}
	}
}

// TestAFigureTypedBeyondTheLimitStays adopts from a job whose own figure is ten times the table's.
func TestAFigureTypedBeyondTheLimitStays(t *testing.T) {
	t.Parallel()
	const row = "minutes/duplet/11/practised"
	j := tookFor(t, 300, job.Put("override/"+row, "value", 5))
	p := plan.Make(j)
	table := cardsByKey(p)[tableCard].MinutesBy["practised"]
	after := plan.Make(job.Try(j, forecast.AdoptRates(&j, &p, []forecast.Comparison{*fillOf(t, j)})))
	assert.Greater(t, 300.0, table)
	assert.Equal(t, 5.0, after.Figure(row), "slower than that needs another typed figure")
}

// TestDroppedRatesAreAsBefore adopts over an own figure and over the table, and takes it back.
func TestDroppedRatesAreAsBefore(t *testing.T) {
	t.Parallel()
	const own, key = "minutes/duplet/11/practised", "fill/practised"
	before := tookFor(t, 30, job.Put("override/"+own, "value", 0.6), job.Put("override/"+own, "note", "timed in May"))
	p := plan.Make(before)
	now := at(t, before.Brief.Doors) * 60_000
	adopted := laterMS(t, before, "Dora", now, forecast.AdoptRates(&before, &p, compared(t, before))...)
	require.Greater(t, *adopted.Overrides[own].Value, 0.6)
	require.NotNil(t, adopted.Overrides["minutes/twist/practised"].Value)
	require.True(t, fillOf(t, adopted).Used)

	assert.Empty(t, forecast.DropRates(&adopted, "fill/beginner", forecast.UsedNote(&before)))
	assert.Empty(t, forecast.DropRates(&adopted, key, "Seen at another job"))
	changes := forecast.DropRates(&adopted, key, forecast.UsedNote(&before))
	for _, c := range changes {
		require.NoError(t, job.CheckChange(c))
	}
	back := laterMS(t, adopted, "Dora", now+60_000, changes...)
	assert.Equal(t, before.Overrides, back.Overrides)
	assert.False(t, fillOf(t, back).Used)

	typed := laterMS(t, adopted, "Dora", now+30_000, job.Put("override/"+own, "value", 0.7))
	back = laterMS(t, typed, "Dora", now+60_000, forecast.DropRates(&typed, key, forecast.UsedNote(&before))...)
	assert.Equal(t, 0.7, *back.Overrides[own].Value, "typed since")
	assert.Nil(t, back.Overrides["minutes/twist/practised"].Value)
}

// TestRatesLearntWithoutALimitAreLimited opens jobs that adopted rates in an earlier version: from two taps after a
// batch, 0 or a seventh of the table's 0.5 minutes.
func TestRatesLearntWithoutALimitAreLimited(t *testing.T) {
	t.Parallel()
	const row = "minutes/duplet/11/practised"
	for _, c := range []struct {
		note  string
		value float64
		after float64
	}{
		{"Seen at Summer party 2026-07-04: 1 min instead of 18 min", 0, 0.17},
		{"from your last job: Seen at Summer party 2026-07-04: 1 min instead of 18 min", 0.07, 0.17},
		{"Seen at Summer party 2026-07-04: 3 h instead of 18 min", 4, 1.5},
		{"Seen at Summer party 2026-07-04: 20 min instead of 18 min", 0.55, 0.55},
		{"timed in May", 0.07, 0.07},
		{"", 4, 4},
	} {
		j := tables(job.Put("override/"+row, "value", c.value), job.Put("override/"+row, "note", c.note))
		p := plan.Make(j)
		assert.Equal(t, c.after, p.Figure(row), "%v, %s", c.value, c.note)
	}
}
