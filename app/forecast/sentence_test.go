package forecast_test

import (
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/calc/crew"
	"garlandry/testdata/long"
)

func TestSaysAChangeOnlyWhenItMatters(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	clocks := newBackground()
	p, now := plan.Make(j), longBefore(t, j)
	quick := clocks.Forecast(j, &p, now, 0, "")
	require.True(t, quick.Planned())
	best := clocks.settled(j, &p, now, "")
	assert.Greater(t, best.Runs, quick.Runs, "it has the usual budget")
	assert.Same(t, best, clocks.Forecast(j, &p, now+3, 0, ""), "and cached")
	assert.Same(t, best, clocks.Soon(j, &p, now, 0), "also for pages that mention it")
	assert.Empty(t, best.Change)
	assert.Empty(t, clocks.works, "no work is queued")

	counted := later(t, j, "Ines", now, job.Count("card/make/door", 1))
	p2 := plan.Make(counted)
	same := clocks.settled(counted, &p2, now, "")
	assert.NotSame(t, best, same)
	assert.Equal(t, best.Sentence, same.Sentence, "one cluster changes nothing that matters")
	assert.Empty(t, same.Change)

	gone := job.Try(counted, []job.Change{job.Put("piece/shelfwall", "removed", true)})
	p3 := plan.Make(gone)
	less := clocks.settled(gone, &p3, now, "")
	assert.NotEqual(t, best.Sentence, less.Sentence)
	assert.Contains(t, less.Change, "sooner than before")
}

// The verdict of the demo job turns from late to unsure and from unsure to sure as its doors open later. Around those
// turns, access a minute earlier does not matter, so the verdict, the sentence and the figures stay.
func TestItDoesNotFlapWhereTheVerdictTurns(t *testing.T) {
	t.Parallel()
	doesNotFlap(t, 20)
}

func TestItDoesNotFlapAtAnyMinute(t *testing.T) {
	long.Test(t, "a longer search never changes a sentence silently, with the doors at any of 80 minutes")
	t.Parallel()
	doesNotFlap(t, 1)
}

// doesNotFlap opens the doors at each of 80 minutes. It also searches longer at every nth minute and at every turn.
func doesNotFlap(t *testing.T, every int64) {
	t.Helper()
	turns := map[string]bool{}
	for minutes := int64(-20); minutes < 60; minutes++ {
		if turn := staysWhereTheVerdictTurns(t, minutes, minutes%every == 0); turn != "" {
			turns[turn] = true
		}
	}
	assert.True(t, turns["late unsure"] || turns["unsure late"], "the first turn was tried: %v", turns)
	assert.True(t, turns["unsure sure"] || turns["sure unsure"], "the second turn was tried: %v", turns)
}

// staysWhereTheVerdictTurns opens the doors of the demo job later by some minutes, then lets the crew in a minute
// earlier. It returns the verdicts before and after, if they differ and the difference does not matter.
func staysWhereTheVerdictTurns(t *testing.T, minutes int64, looksLonger bool) (turn string) {
	t.Helper()
	j := readJob(t, "reading-room")
	now := longBefore(t, j)
	clocks := newBackground()
	one := movedBy(t, j, "doors", minutes)
	next := movedBy(t, one, "in", -1)
	p, p2 := plan.Make(one), plan.Make(next)
	first := clocks.Forecast(one, &p, now, 0, "")
	shown := *first
	clocks.works = nil // the job changes before the background work
	alone := new(forecast.Cache).Forecast(next, &p2, now, 0, "")
	second := clocks.Forecast(next, &p2, now, 0, "")
	if second.Change != "" {
		return "" // it matters
	}
	assert.Equal(t, shown.Verdict, second.Verdict, minutes)
	assert.Equal(t, shown.Sentence, second.Sentence)
	assert.Equal(t, []any{shown.Odds, shown.Half, shown.Ninety}, []any{second.Odds, second.Half, second.Ninety},
		"the figures match the sentence")
	if alone.Verdict != shown.Verdict {
		turn = shown.Verdict + " " + alone.Verdict
	}
	if !looksLonger && turn == "" {
		return ""
	}
	further := clocks.settled(next, &p2, now, "")
	assert.True(t, further.Change != "" || further.Sentence == shown.Sentence,
		"a longer search does not change it silently either")
	return turn
}

// movedBy returns a job with the access or the doors some minutes later.
func movedBy(t *testing.T, j job.Job, field string, minutes int64) job.Job {
	t.Helper()
	moments := map[string]job.Moment{"in": j.Brief.In, "doors": j.Brief.Doors}
	return job.Try(j, []job.Change{job.Put("brief", field, moment(at(t, moments[field])+minutes))})
}

func TestNewDoorsShowAtOnce(t *testing.T) {
	j := readJob(t, "reading-room")
	now, later := longBefore(t, j), movedBy(t, j, "doors", 2)
	var clocks forecast.Cache
	p, p2 := plan.Make(j), plan.Make(later)
	clocks.Forecast(j, &p, now, 0, "")
	assert.Contains(t, clocks.Forecast(later, &p2, now, 0, "").Sentence, "11:32",
		"the sentence names the new time")
}

func TestMustHavesAreOnTimeOnlyIfTheirOddsSaySo(t *testing.T) {
	for odds, want := range map[float64]string{
		0.993: "on time (99 %)", 0.9: "on time (90 %)", 0.899: "tight (89 %)", 0.5: "tight (50 %)", 0.44: "late (44 %)",
		0: "late (under 1 %)",
	} {
		assert.Equal(t, want, (&forecast.Forecast{Musts: odds}).MustHaves())
	}
}

func TestPercentIsNeverBetterThanTheOdds(t *testing.T) {
	assert.Equal(t, "89 %", forecast.Percent(0.899))
	assert.Equal(t, "90 %", forecast.Percent(0.9))
	assert.Equal(t, "under 1 %", forecast.Percent(0.0099))
	assert.Equal(t, "99 %", forecast.Percent(0.999))
	assert.Equal(t, "99 %", forecast.Percent(1))
	assert.True(t, crew.Matters(crew.Forecast{Done: 0.8}, crew.Forecast{Done: 0.7}))
}
