package crew_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// tight is one that cannot be done: two hours of work for two, in a window of one and
// a half, with a ladder that both want.
func tight() crew.Job {
	job := crew.Job{
		Doors: 90, People: []crew.Person{{Key: "ines", Practised: true}, {Key: "bea"}}, Things: []crew.Thing{{Key: "ladder", Count: 1}},
		Rates: []crew.Rate{{Kind: "fix", Factor: 1, Spread: 0.1}},
	}
	job.Windows[crew.Site] = []crew.Interval{{From: 0, To: 90}}
	add := func(key, piece string, minutes float64, p crew.Priority, before ...string) {
		job.Tasks = append(job.Tasks, crew.Task{Key: key, Piece: piece, Kind: "fix", Minutes: minutes, Beginner: 1.5, Most: 2, Spread: 0.2, Place: crew.Site, Splittable: true, Priority: p, Before: before})
	}
	add("garland", "door", 60, crew.Must)
	add("accents", "door", 20, crew.Could, "garland")
	add("column", "column", 40, crew.Should)
	add("tables", "tables", 30, crew.Could)
	job.Tasks[0].Needs = []crew.Need{{Thing: "ladder", Serves: 1}}
	return job
}

// halfAtHome makes half of the garland at home, before.
func halfAtHome(j crew.Job) crew.Job {
	j = crew.Lighten("garland", 0.5)(j)
	home := j.Tasks[0]
	home.Key, home.Place, home.Needs = "garland/home", crew.Home, nil
	j.Tasks[0].Before = []string{home.Key}
	j.Tasks = append(j.Tasks, home)
	return j
}

func levers() []crew.Lever {
	return []crew.Lever{
		{Key: "tomasz from the start", Cost: crew.Cost{Cents: 6000}, Price: 60, Apply: crew.MoreHands(crew.Person{Key: "tomasz", Practised: true})},
		{Key: "second ladder", Cost: crew.Cost{Cents: 1500}, Price: 15, Apply: crew.MoreOf("ladder", 1)},
		{Key: "half the garland at home", Cost: crew.Cost{Minutes: 30}, Price: 30, Apply: halfAtHome},
		{Key: "no tables", Cost: crew.Cost{Look: 10}, Price: 10, Apply: crew.LeaveOut(func(t crew.Task) bool { return t.Piece == "tables" })},
		{Key: "thin accents", Cost: crew.Cost{Look: 5}, Price: 5, Apply: crew.Lighten("accents", 0.5)},
		{Key: "a quarter of an hour earlier", Cost: crew.Cost{Minutes: 15}, Price: 8, Apply: crew.Sooner(crew.Site, 15)},
	}
}

func TestFixesReachTheTargetAndAreCheapest(t *testing.T) {
	job := tight()
	job.Windows[crew.Home] = []crew.Interval{{From: -200, To: -100}}
	job.Now = -200
	_, before, err := crew.Settle(job, crew.Options{Seed: 1, Schedules: 100, Runs: 500})
	require.NoError(t, err)
	require.Less(t, before.Done, 0.9)
	fixes := crew.Fixes(job, levers(), crew.FixOptions{Options: crew.Options{Seed: 1, Schedules: 100, Runs: 500}})
	require.NotEmpty(t, fixes)
	price := 0.0
	for _, fix := range fixes {
		t.Log(fix.Levers, fix.Cost, fix.Price, fix.Forecast.Done, fix.Forecast.Ninety)
		assert.True(t, fix.Reaches)
		assert.GreaterOrEqual(t, fix.Forecast.Done, 0.9)
		assert.GreaterOrEqual(t, fix.Price, price)
		price = fix.Price
		// Pressed by hand, the levers give the same odds.
		pressed := job
		for _, key := range fix.Levers {
			for _, lever := range levers() {
				if lever.Key == key {
					pressed = lever.Apply(pressed)
				}
			}
		}
		checkCrew(t, pressed, fix.Schedule, true)
		_, after, err := crew.Settle(pressed, crew.Options{Seed: 1, Schedules: 100, Runs: 500})
		require.NoError(t, err)
		assert.Equal(t, fix.Forecast, after)
	}
	for _, lever := range levers() {
		if lever.Price < fixes[0].Price {
			_, alone, err := crew.Settle(lever.Apply(job), crew.Options{Seed: 1, Schedules: 100, Runs: 500})
			require.NoError(t, err)
			assert.Less(t, alone.Done, 0.9, "%s alone is cheaper than the first fix", lever.Key)
		}
	}
}

func TestFixesGiveTheNearestIfNoneReaches(t *testing.T) {
	job := tight()
	job.Doors = 30
	job.Windows[crew.Site] = []crew.Interval{{From: 0, To: 30}}
	fixes := crew.Fixes(job, levers(), crew.FixOptions{Options: crew.Options{Seed: 1, Schedules: 30, Runs: 200}, Most: 1})
	require.Len(t, fixes, 1)
	assert.False(t, fixes[0].Reaches)
}

func TestRefusedJobs(t *testing.T) {
	for name, row := range map[string]struct {
		change func(*crew.Job)
		want   error
	}{
		"circle":       {func(j *crew.Job) { j.Tasks[0].Before = []string{"accents"} }, crew.ErrCircle},
		"too few":      {func(j *crew.Job) { j.Tasks[0].Least = 3 }, crew.ErrTooFew},
		"no ladder":    {func(j *crew.Job) { j.Things[0].Count = 0 }, crew.ErrMissing},
		"which ladder": {func(j *crew.Job) { j.Tasks[0].Needs[0].Thing = "stool" }, crew.ErrMissing},
		"twice":        {func(j *crew.Job) { j.Tasks[1].Key = "garland" }, crew.ErrTwice},
		"minutes":      {func(j *crew.Job) { j.Tasks[1].Minutes = -1 }, crew.ErrAmount},
		"place":        {func(j *crew.Job) { j.Tasks[1].Place = 9 }, crew.ErrAmount},
	} {
		job := tight()
		row.change(&job)
		_, err := crew.NewSearch(job, 1, 10)
		assert.ErrorIs(t, err, row.want, name)
	}
}
