package crew_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// lognormal returns the share of times up to x of a lognormal with a mean and the standard deviation of its logarithm,
// by the error function.
func lognormal(x, mean, spread float64) float64 {
	if x <= 0 {
		return 0
	}
	z := (math.Log(x/mean) + spread*spread/2) / spread
	return 0.5 * math.Erfc(-z/math.Sqrt2)
}

const manyRuns = 20_000

// fiveErrors returns five standard errors of a share.
func fiveErrors(p float64) float64 { return 5 * math.Sqrt(p*(1-p)/manyRuns) }

func chain(doors int, together bool, spreads ...float64) crew.Job {
	job := crew.Job{Doors: doors}
	for i, spread := range spreads {
		task := crew.Task{Key: string(rune('a' + i)), Minutes: 100, Spread: spread, Place: crew.Site}
		if i > 0 && !together {
			task.Before = []string{string(rune('a' + i - 1))}
		}
		job.Tasks = append(job.Tasks, task)
		if together || i == 0 {
			job.People = append(job.People, crew.Person{Key: string(rune('p' + i)), Practised: true})
		}
	}
	return job
}

func oddsOf(t *testing.T, job crew.Job, runs int) crew.Forecast {
	t.Helper()
	search, err := crew.NewSearch(job, 3, 50)
	require.NoError(t, err)
	return crew.Odds(search.Improve(50), 3, runs)
}

// TestOddsOfASumMatchItsConvolution compares with the convolution of two lognormals, summed in steps of a tenth of a
// minute.
func TestOddsOfASumMatchItsConvolution(t *testing.T) {
	for _, doors := range []int{150, 180, 200, 230, 300} {
		want := 0.0
		for x := 0.05; x < float64(doors); x += 0.1 {
			want += (lognormal(x+0.05, 100, 0.3) - lognormal(x-0.05, 100, 0.3)) * lognormal(float64(doors)-x, 100, 0.5)
		}
		got := oddsOf(t, chain(doors, false, 0.3, 0.5), manyRuns)
		assert.InDelta(t, want, got.Done, fiveErrors(want), "doors %d", doors)
	}
}

// TestOddsOfTheLaterOfTwoMatchTheProduct compares with a closed form: the maximum of two is done when both are. Each is
// critical when it is the later one.
func TestOddsOfTheLaterOfTwoMatchTheProduct(t *testing.T) {
	for _, doors := range []int{80, 100, 120, 160} {
		want := lognormal(float64(doors), 100, 0.3) * lognormal(float64(doors), 100, 0.5)
		got := oddsOf(t, chain(doors, true, 0.3, 0.5), manyRuns)
		assert.InDelta(t, want, got.Done, fiveErrors(want), "doors %d", doors)
		assert.InDelta(t, 1, got.Critical[0].Share+got.Critical[1].Share, 1e-9)
		// The logarithm of the ratio is normal: mean (0.5²-0.3²)/2 in favour of the first, variance 0.3²+0.5².
		z := (0.25 - 0.09) / 2 / math.Sqrt(0.34)
		assert.InDelta(t, 0.5*math.Erfc(-z/math.Sqrt2), got.Critical[0].Share, 0.02)
	}
}

// TestASharedRateMovesAllTasksTogether checks that a rate shared by all tasks of a kind does not average out.
func TestASharedRateMovesAllTasksTogether(t *testing.T) {
	job := chain(1200, false, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
	job.Rates = []crew.Rate{{Factor: 1, Spread: 0.3}}
	got := oddsOf(t, job, manyRuns)
	want := lognormal(1200, 1000, 0.3)
	assert.InDelta(t, want, got.Done, fiveErrors(want))
	// The error of a quantile x of n draws is sqrt(p(1-p)/n) divided by the density at x: under 5 minutes here.
	assert.InDelta(t, 1000*math.Exp(-0.045), got.Half, 10)
	assert.InDelta(t, 1000*math.Exp(-0.045+0.3*1.2815516), got.Ninety, 20)
}

// TestOddsOfTheTextbooksPath checks Hillier and Lieberman, Introduction to Operations Research, the Reliable
// Construction Co. (from memory): a critical path with mean 44 and variance 9 weeks is done by week 47 with odds of
// Phi(1) = 0.8413. Ours are lognormal and therefore slightly skewed, hence the tolerance of one and a half points.
func TestOddsOfTheTextbooksPath(t *testing.T) {
	const tasks, week = 16, 100
	job := crew.Job{Doors: 47 * week, People: []crew.Person{{Key: "p", Practised: true}}}
	spread := math.Sqrt(math.Log(1 + 9.0*tasks/(44*44)))
	for i := range tasks {
		task := crew.Task{Key: string(rune('a' + i)), Minutes: 44.0 * week / tasks, Spread: spread, Place: crew.Site}
		job.Tasks = append(job.Tasks, task)
	}
	assert.InDelta(t, 0.8413, oddsOf(t, job, manyRuns).Done, 0.015+fiveErrors(0.84))
}

// TestOddsOfTheTablesEstimates checks the worked table of three-point estimates, wizedu 717873: mean (a+4m+b)/6,
// standard deviation (b-a)/6. A task with that mean and deviation is done by mean plus deviation with the odds of the
// lognormal that has both.
func TestOddsOfTheTablesEstimates(t *testing.T) {
	for _, row := range []struct{ soonest, likely, latest, mean, deviation float64 }{
		{5, 5, 7, 5.33, 0.33}, {1, 10, 17, 9.67, 2.67}, {6, 10, 13, 9.83, 1.17}, {7, 7, 12, 7.83, 0.83},
	} {
		mean, deviation := (row.soonest+4*row.likely+row.latest)/6, (row.latest-row.soonest)/6
		require.InDelta(t, row.mean, mean, 0.005)
		require.InDelta(t, row.deviation, deviation, 0.005)
		const day = 600 // minutes, so that whole minutes are precise enough
		spread := math.Sqrt(math.Log(1 + deviation*deviation/(mean*mean)))
		job := crew.Job{Doors: int(day * (mean + deviation)), People: []crew.Person{{Key: "p", Practised: true}}}
		job.Tasks = []crew.Task{{Key: "a", Minutes: day * mean, Spread: spread, Place: crew.Site}}
		got := oddsOf(t, job, manyRuns)
		want := lognormal(float64(job.Doors), day*mean, spread)
		assert.InDelta(t, want, got.Done, fiveErrors(want), "mean %.2f", mean)
		assert.InDelta(t, day*mean*math.Exp(spread*1.2815516-spread*spread/2), got.Ninety, 0.03*day*deviation+1)
	}
}

// TestSpreadFallsWithHands checks that four hands on a task halve its spread, like the mean of four.
func TestSpreadFallsWithHands(t *testing.T) {
	job := crew.Job{Doors: 110, Tasks: []crew.Task{{Key: "a", Minutes: 400, Least: 4, Spread: 0.4, Place: crew.Site}}}
	for _, key := range []string{"p", "q", "r", "s"} {
		job.People = append(job.People, crew.Person{Key: key, Practised: true})
	}
	want := lognormal(110, 100, 0.2)
	assert.InDelta(t, want, oddsOf(t, job, manyRuns).Done, fiveErrors(want))
}

// TestSpreadOfBeginners checks that a beginner's time has its own spread, independent of that of practised people.
func TestSpreadOfBeginners(t *testing.T) {
	for _, row := range []struct {
		name           string
		practised      bool
		told, unsteady float64
		spread         float64
	}{
		{"practised", true, 0.2, 0.5, 0.2}, {"a beginner", false, 0.2, 0.5, 0.5}, {"a beginner, and less is told", false,
			0.3, 0.1, 0.3},
	} {
		job := crew.Job{Doors: 120, People: []crew.Person{{Key: "p", Practised: row.practised}}}
		job.Tasks = []crew.Task{{Key: "a", Minutes: 100, Spread: row.told, Unsteady: row.unsteady, Place: crew.Site}}
		want := lognormal(120, 100, row.spread)
		assert.InDelta(t, want, oddsOf(t, job, manyRuns).Done, fiveErrors(want), row.name)
	}
}

// TestSpreadOfAMixedTeam checks 300 minutes of which a practised person does two thirds and a beginner one: the
// variances of their parts add up.
func TestSpreadOfAMixedTeam(t *testing.T) {
	job := crew.Job{Doors: 220, People: []crew.Person{{Key: "p", Practised: true}, {Key: "b"}}}
	job.Tasks = []crew.Task{{Key: "a", Minutes: 300, Beginner: 2, Least: 2, Spread: 0.3, Unsteady: 0.6, Place: crew.Site}}
	want := lognormal(220, 200, math.Hypot(0.3*2/3, 0.6/3))
	assert.InDelta(t, want, oddsOf(t, job, manyRuns).Done, fiveErrors(want))
	job.Tasks[0].Splittable = true
	assert.InDelta(t, want, oddsOf(t, job, manyRuns).Done, fiveErrors(want), "shared")
}
