package crew_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/crew"
)

// TestLearnGoesHalfWay checks the textbook conjugate update: with a prior N(0, 0.2²), one observation of spread 0.2
// halves the variance and moves the mean half way, here on logarithms.
func TestLearnGoesHalfWay(t *testing.T) {
	before := []crew.Rate{{Kind: "cluster", Factor: math.Exp(0.02), Spread: 0.2}, {Kind: "frame", Factor: 1, Spread: 0.2},
		{Kind: "sure", Factor: 1}}
	actual := 100 * math.Exp(0.4-0.02) // a mean of the logarithm of 0.4, less half its variance
	after := crew.Learn(
		before,
		[]crew.Seen{{Kind: "cluster", Planned: 100, Actual: actual, Spread: 0.2},
			{Kind: "sure", Planned: 1, Actual: 9, Spread: 0.2}, {Kind: "cluster", Planned: 0, Actual: 1}},
	)
	assert.InDelta(t, 0.2/math.Sqrt2, after[0].Spread, 1e-12)
	assert.InDelta(t, math.Exp(0.2+0.01), after[0].Factor, 1e-12)
	assert.Equal(t, before[1:], after[1:], "unmeasured and certain rates must stay")
}

func TestLearnComesCloserWithMoreMeasurements(t *testing.T) {
	last, seen := 1.0, []crew.Seen(nil)
	for range 20 {
		seen = append(seen, crew.Seen{Kind: "k", Planned: 10, Actual: 15, Spread: 0.4})
		rate := crew.Learn([]crew.Rate{{Kind: "k", Factor: 1, Spread: 0.2}}, seen)[0]
		assert.Greater(t, rate.Factor, last)
		last = rate.Factor
	}
	assert.InDelta(t, 1.5, last, 0.2)
}

func TestCompareKeepsSkillsApart(t *testing.T) {
	rows := crew.Compare([]crew.Rate{{Kind: "k", Factor: 1, Spread: 0.3}}, []crew.Seen{
		{Kind: "k", Planned: 10, Actual: 20, Spread: 0.3}, {Kind: "k", Practised: true, Planned: 10, Actual: 10, Spread: 0.3},
		{Kind: "k", Planned: 20, Actual: 30, Spread: 0.3},
	})
	assert.Len(t, rows, 2)
	assert.Equal(t, 30.0, rows[0].Planned)
	assert.Equal(t, 50.0, rows[0].Actual)
	assert.Equal(t, 2, rows[0].Times)
	assert.Greater(t, rows[0].Rate.Factor, 1.3)
	assert.Less(t, rows[0].Rate.Factor, 5.0/3)
	assert.InDelta(t, 1, rows[1].Rate.Factor, 0.05)
}

func TestLeftIsSmallerBySharesAndMinutes(t *testing.T) {
	job := readingRoom(20)
	left := crew.Left(job, 1200, []crew.Progress{
		{Task: "make/piece0", Done: true, Practised: 16, ByPractised: 1},
		{Task: "make/piece1", Share: 0.25, Practised: 10, ByPractised: 0.25},
		{Task: "make/piece2", Beginners: 18}, // not counted: 9 of 36 minutes of practised hands
		{Task: "load", Done: true, Ended: 2000},
		{Task: "nobody knows", Done: true},
	})
	assert.Len(t, left.Tasks, len(job.Tasks)-2)
	for _, task := range left.Tasks {
		switch task.Key {
		case "make/piece1":
			assert.InDelta(t, 26*0.75, task.Minutes, 1e-9)
		case "make/piece2":
			assert.InDelta(t, 36-9, task.Minutes, 1e-9)
		case "frame/piece0":
			assert.Equal(t, 2025, task.From, "the drive after loading")
		}
	}
	assert.Equal(t, 1200, left.Now)
	assert.Greater(t, left.Rates[0].Factor, 1.0, "16 and 10 for 16 and 6.5 planned")
	assert.Less(t, left.Rates[0].Factor, 1.2)
	_, f := settle(t, left, 1)
	assert.Greater(t, f.Ninety, 1200)
}

// TestMatters checks that only a relevant change of the forecast is announced.
func TestMatters(t *testing.T) {
	said := crew.Forecast{Done: 0.9, Half: 1000, Ninety: 1020}
	for _, row := range []struct {
		name    string
		now     crew.Forecast
		matters bool
	}{
		{"the same", said, false},
		{"four minutes", crew.Forecast{Done: 0.9, Half: 1004, Ninety: 1024}, false},
		{"five minutes", crew.Forecast{Done: 0.9, Half: 1000, Ninety: 1025}, true},
		{"five minutes sooner", crew.Forecast{Done: 0.9, Half: 995, Ninety: 1020}, true},
		{"nine points", crew.Forecast{Done: 0.81, Half: 1000, Ninety: 1020}, false},
		{"ten points", crew.Forecast{Done: 0.8, Half: 1000, Ninety: 1020}, true},
	} {
		assert.Equal(t, row.matters, crew.Matters(said, row.now), row.name)
	}
}

// TestCompareMeasuresTheSpreadOfTimes is computed by hand: the squares of the logarithms 0, 0.4 and 0.8 about their
// mean sum to 0.32, which is 8 in units of a spread of 0.2, beside six of the given spread.
func TestCompareMeasuresTheSpreadOfTimes(t *testing.T) {
	seen := func(logarithms ...float64) (list []crew.Seen) {
		for _, l := range logarithms {
			list = append(list, crew.Seen{Kind: "k", Planned: 10, Actual: 10 * math.Exp(l-0.02), Spread: 0.2})
		}
		return append(list, crew.Seen{Kind: "other", Planned: 1, Actual: 90, Spread: 0.2},
			crew.Seen{Kind: "k", Planned: 1, Actual: 90, Spread: 0.2, Practised: true})
	}
	strays := func(logarithms ...float64) float64 { return crew.Compare(nil, seen(logarithms...))[0].Strays }
	assert.InDelta(t, math.Sqrt((6+8)/8.0), strays(0, 0.4, 0.8), 1e-9)
	assert.InDelta(t, 1, strays(0.5), 1e-9, "one measurement says nothing about it")
	assert.InDelta(t, math.Sqrt(6/10.0), strays(0.3, 0.3, 0.3, 0.3, 0.3), 1e-9, "equal times")
}

// TestLearnMatchesAHandWorkedExample works the conjugate update of a normal mean with known variance by hand (Gelman
// and others, Bayesian Data Analysis, section 2.5, from memory): precisions add up, and they weight the mean.
//
//	prior of the logarithm   mean -0.15²/2 = -0.01125   precision 1/0.15² = 44.4444
//	a whole batch, 0.2       30 min of 20: 0.405465 + 0.2²/2 = 0.425465   precision 25
//	a quarter of it, 0.4     3 min of 5: -0.510826 + 0.4²/2 = -0.430826   precision 6.25
//
// The precision is 75.6944, and the mean (-0.5 + 10.636625 - 2.692663) / 75.6944 = 0.098342. The factor is
// exp(0.098342 + 1/75.6944/2) = 1.110653, and the spread is 1/√75.6944 = 0.114939.
func TestLearnMatchesAHandWorkedExample(t *testing.T) {
	batch := crew.Task{Kind: "k", Minutes: 20, Spread: 0.2}
	seen := append(batch.Seen(&crew.Progress{Done: true, Practised: 30, ByPractised: 1}),
		batch.Seen(&crew.Progress{Share: 1, Practised: 3, ByPractised: 0.25})...)
	rate := crew.Learn([]crew.Rate{{Kind: "k", Factor: 1, Spread: 0.15}}, seen)[0]
	assert.InDelta(t, 1.110653, rate.Factor, 1e-6)
	assert.InDelta(t, 0.114939, rate.Spread, 1e-6)
}

// TestOnlyTheTimedShareIsMeasured checks that minutes of an unknown share say nothing and those of a small share less.
func TestOnlyTheTimedShareIsMeasured(t *testing.T) {
	job := crew.Job{Tasks: []crew.Task{{Key: "a", Kind: "k", Minutes: 20, Spread: 0.2},
		{Key: "b", Kind: "k", Minutes: 9}}, Rates: []crew.Rate{{Kind: "k", Factor: 1, Spread: 0.15}}}
	factor := func(p crew.Progress) float64 {
		p.Task, p.Done = "a", true
		return crew.Left(job, 0, []crew.Progress{p}).Rates[0].Factor
	}
	assert.Equal(t, 1.0, factor(crew.Progress{Practised: 1}))
	all := factor(crew.Progress{Practised: 40, ByPractised: 1})
	some := factor(crew.Progress{Practised: 10, ByPractised: 0.25})
	assert.Greater(t, some, 1.0)
	assert.Greater(t, all, some, "both were half as fast")
}

// TestNoLearntRateGoesBeyondThreeTimes draws measurements. Longer ones never give a smaller factor.
func TestNoLearntRateGoesBeyondThreeTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes := rapid.Float64Range(1e-3, 1e5)
		var seen, longer []crew.Seen
		for range rapid.IntRange(1, 40).Draw(t, "times") {
			s := crew.Seen{Kind: "k", Planned: minutes.Draw(t, "planned"), Actual: minutes.Draw(t, "actual"),
				Spread: rapid.Float64Range(0, 2).Draw(t, "spread")}
			seen = append(seen, s)
			s.Actual = float64(s.Actual * rapid.Float64Range(1, 10).Draw(t, "longer"))
			longer = append(longer, s)
		}
		before := []crew.Rate{{Kind: "k", Factor: 1, Spread: rapid.Float64Range(0.01, 2).Draw(t, "prior")}}
		fast, slow := crew.Learn(before, seen)[0].Factor, crew.Learn(before, longer)[0].Factor
		if fast < 1.0/3 || slow > 3 || slow < fast {
			t.Fatalf("factors %v and %v", fast, slow)
		}
	})
}

// TestTheLastOfATaskIsNotNothing checks that a task with very little left still takes somebody's time.
func TestTheLastOfATaskIsNotNothing(t *testing.T) {
	job := crew.Job{Tasks: []crew.Task{{Key: "a", Minutes: 0.1}}, People: []crew.Person{{Key: "p"}}, Doors: 60}
	left := crew.Left(job, 0, []crew.Progress{{Task: "a", Share: 0.999}})
	s, _ := settle(t, left, 1)
	slot, there := s.Slot("a")
	assert.True(t, there)
	assert.Equal(t, 1, slot.End-slot.Start)
	assert.Len(t, slot.Spells, 1)
}
