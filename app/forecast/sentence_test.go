package forecast_test

import (
	"fmt"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/calc/crew"
)

func TestSaysAChangeOnlyWhenItMatters(t *testing.T) {
	j := readJob(t, "reading-room")
	clocks := newPauses()
	p, now := plan.Make(j), longBefore(t, j)
	quick := clocks.Forecast(j, &p, now, 0, "")
	require.True(t, quick.Planned())
	clocks.pass()
	best := clocks.Forecast(j, &p, now, 0, "")
	assert.Greater(t, best.Runs, quick.Runs, "it was worked out further")
	assert.Same(t, best, clocks.Forecast(j, &p, now+3, 0, ""), "and kept")
	assert.Same(t, best, clocks.Soon(j, &p, now, 0), "for pages that mention it, too")
	assert.Empty(t, best.Change)
	assert.Empty(t, clocks.works, "there is no more to it")

	counted := later(t, j, "Ines", now, job.Count("card/make/door", 1))
	p2 := plan.Make(counted)
	clocks.Forecast(counted, &p2, now, 0, "")
	clocks.pass()
	same := clocks.Forecast(counted, &p2, now, 0, "")
	assert.NotSame(t, best, same)
	assert.Equal(t, best.Sentence, same.Sentence, "one cluster changes nothing that matters")
	assert.Empty(t, same.Change)

	gone := job.Try(counted, []job.Change{job.Put("piece/shelfwall", "removed", true)})
	p3 := plan.Make(gone)
	clocks.Forecast(gone, &p3, now, 0, "")
	clocks.pass()
	less := clocks.Forecast(gone, &p3, now, 0, "")
	assert.NotEqual(t, best.Sentence, less.Sentence)
	assert.Contains(t, less.Change, "sooner than it looked before")
}

// The demo job with doors moved until its odds lie just on either side of 9 and of 5 in 10. Where being let in a minute
// sooner is no change that matters it leaves verdict, sentence and figures as they were.
func TestItDoesNotFlapWhereTheVerdictTurns(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	now, doors := longBefore(t, j), at(t, j.Brief.Doors)
	moved := func(j job.Job, field string, minute int64) job.Job {
		c := job.CalendarAt(minute)
		return job.Try(
			j,
			[]job.Change{
				job.Put("brief", field, fmt.Sprintf("%04d-%02d-%02dT%02d:%02d", c.Year, c.Month, c.Day, c.Hour, c.Minute)),
			},
		)
	}
	turns := map[string]bool{}
	for minutes := int64(-20); minutes < 60; minutes++ {
		clocks := newPauses()
		one := moved(j, "doors", doors+minutes)
		next := moved(one, "in", at(t, j.Brief.In)-1)
		p, p2 := plan.Make(one), plan.Make(next)
		first := clocks.Forecast(one, &p, now, 0, "")
		said := *first
		clocks.works = nil // the job changes before it is worked out further
		alone := new(forecast.Cache).Forecast(next, &p2, now, 0, "")
		second := clocks.Forecast(next, &p2, now, 0, "")
		turned := alone.Verdict != said.Verdict
		if second.Change != "" {
			continue // it matters
		}
		assert.Equal(t, said.Verdict, second.Verdict, minutes)
		assert.Equal(t, said.Sentence, second.Sentence)
		assert.Equal(t, []any{said.Odds, said.Half, said.Ninety}, []any{second.Odds, second.Half, second.Ninety},
			"the figures beside a sentence are those of the sentence")
		if turned {
			turns[said.Verdict+" "+alone.Verdict] = true
		}
		clocks.pass()
		further := clocks.Forecast(next, &p2, now, 0, "")
		assert.True(t, further.Change != "" || further.Sentence == said.Sentence,
			"nor does looking longer change it without a word")
	}
	moreDoors := moved(j, "doors", doors+2)
	var clocks forecast.Cache
	p, p2 := plan.Make(j), plan.Make(moreDoors)
	clocks.Forecast(j, &p, now, 0, "")
	assert.Contains(t, clocks.Forecast(moreDoors, &p2, now, 0, "").Sentence, "11:32",
		"a time that is told is the time that holds")
	assert.Contains(t, turns, "late unsure")
	assert.Contains(t, turns, "unsure sure")
}

func TestPercentIsNeverBetterThanTheOdds(t *testing.T) {
	assert.Equal(t, "89 %", forecast.Percent(0.899))
	assert.Equal(t, "90 %", forecast.Percent(0.9))
	assert.Equal(t, "under 1 %", forecast.Percent(0.0099))
	assert.Equal(t, "99 %", forecast.Percent(0.999))
	assert.Equal(t, "99 %", forecast.Percent(1))
	assert.True(t, crew.Matters(crew.Forecast{Done: 0.8}, crew.Forecast{Done: 0.7}))
}
