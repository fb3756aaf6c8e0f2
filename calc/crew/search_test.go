package crew_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

func TestSchedulesOfRandomJobsAreFeasible(t *testing.T) {
	for seed := range uint64(100) {
		job := randomJob(seed, 3+int(seed%15), true)
		search, err := crew.NewSearch(job, seed, 100)
		require.NoError(t, err, "seed %d", seed)
		first := search.Improve(1)
		checkCrew(t, job, first, true)
		later := search.Improve(99)
		checkCrew(t, job, later, true)
		kept, err := crew.Carry(later, job)
		require.NoError(t, err, "seed %d", seed)
		require.LessOrEqual(t, kept.Finish, later.Finish, "seed %d", seed)
		checkCrew(t, job, kept, false)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// TestReadingRoom checks that the job of fifty cards and four people has a first plan and odds that a decorator would
// find realistic, and that improving never makes it later.
func TestReadingRoom(t *testing.T) {
	job := readingRoom(50)
	begun := time.Now()
	search, err := crew.NewSearch(job, 1, 1000)
	require.NoError(t, err)
	first := search.Improve(1)
	firstIn := time.Since(begun)
	later := search.Improve(999)
	t.Logf("first plan done at %d in %s; %d schedules, done at %d, in %s", first.Finish, firstIn, later.Tried,
		later.Finish, time.Since(begun))
	checkCrew(t, job, first, true)
	checkCrew(t, job, later, true)
	assert.LessOrEqual(t, later.Finish, first.Finish)
	assert.Empty(t, later.StaysOn)
	for i, slot := range later.Slots {
		earliest := map[crew.Place]int{crew.Home: 18 * 60, crew.Load: 33 * 60, crew.Site: 37 * 60,
			crew.TakeDown: 46 * 60}[job.Tasks[i].Place]
		assert.GreaterOrEqual(t, slot.Start, earliest, slot.Task)
	}
	f := crew.Odds(later, 1, 0)
	assert.Equal(t, crew.Runs, f.Runs)
	assert.LessOrEqual(t, f.Half, f.Ninety)
	assert.Greater(t, f.Done, 0.9)
}

// TestStayingOnIsReported checks that a person who must leave before the work is done does not stay while others can go
// on. If nobody can, the work ends late and the schedule says who stays on.
func TestStayingOnIsReported(t *testing.T) {
	job := crew.Job{Doors: 60,
		People: []crew.Person{{Key: "bea", Practised: true, Free: []crew.Interval{{From: 0, To: 30}}}}}
	job.Tasks = []crew.Task{{Key: "a", Minutes: 45, Place: crew.Site}}
	search, err := crew.NewSearch(job, 1, 10)
	require.NoError(t, err)
	late := search.Improve(10)
	assert.Equal(t, []string{"bea"}, late.StaysOn)
	assert.Equal(t, 105, late.Finish)
	assert.Zero(t, crew.Odds(late, 1, 100).Done)
	job.People = append(job.People, crew.Person{Key: "ines"})
	search, err = crew.NewSearch(job, 1, 10)
	require.NoError(t, err)
	fine := search.Improve(10)
	assert.Empty(t, fine.StaysOn)
	assert.Equal(t, 45, fine.Finish)
	assert.Equal(t, []crew.Spell{{Person: "ines", From: 0, To: 45}}, fine.Slots[0].Spells)
}

// TestSharedWorkIsHandedOver checks that others continue shared work.
func TestSharedWorkIsHandedOver(t *testing.T) {
	job := crew.Job{Doors: 60, People: []crew.Person{
		{Key: "bea", Practised: true, Free: []crew.Interval{{From: 0, To: 30}}},
		{Key: "ines", Practised: true, Free: []crew.Interval{{From: 20, To: 60}}},
	}}
	job.Tasks = []crew.Task{{Key: "clusters", Minutes: 50, Most: 2, Place: crew.Site, Splittable: true}}
	search, err := crew.NewSearch(job, 1, 10)
	require.NoError(t, err)
	s := search.Improve(10)
	assert.Equal(t, []crew.Spell{{Person: "bea", From: 0, To: 30}, {Person: "ines", From: 20, To: 40}}, s.Slots[0].Spells)
	assert.Equal(t, 40, s.Finish)
}

// TestTheOriginDoesNotMatter checks that moving everything a week earlier moves the plan a week earlier.
func TestTheOriginDoesNotMatter(t *testing.T) {
	const week = 7 * 24 * 60
	job, earlier := readingRoom(30), readingRoom(30)
	earlier.Now, earlier.Doors = -week, earlier.Doors-week
	for place := range earlier.Windows {
		for i := range earlier.Windows[place] {
			earlier.Windows[place][i].From -= week
			earlier.Windows[place][i].To -= week
		}
	}
	for p := range earlier.People {
		for i := range earlier.People[p].Free {
			earlier.People[p].Free[i].From -= week
			earlier.People[p].Free[i].To -= week
		}
	}
	a, f := settle(t, job, 1)
	b, g := settle(t, earlier, 1)
	checkCrew(t, earlier, b, true)
	for i := range a.Slots {
		assert.Equal(t, a.Slots[i].Start-week, b.Slots[i].Start, a.Slots[i].Task)
		assert.Equal(t, a.Slots[i].End-week, b.Slots[i].End)
	}
	assert.Equal(t, f.Done, g.Done)
	assert.Equal(t, f.Ninety-week, g.Ninety)
}

// TestTheSearchBeginsWithAnOlderPlan checks that the best of four schedules ends sooner with an older plan than
// without, even if a task is new or gone, and that with one more person it is still a complete plan.
func TestTheSearchBeginsWithAnOlderPlan(t *testing.T) {
	with, without, found := map[string]int{}, map[string]int{}, 0
	for seed := range uint64(40) {
		job := randomJob(seed, 14, true)
		old, _, err := crew.Settle(job, crew.Options{Seed: seed, Schedules: 300, Runs: 1})
		require.NoError(t, err)
		fewer, more, hands := job, job, moreHands(crew.Person{Key: "more"})(job)
		fewer.Tasks = job.Tasks[1:]
		more.Tasks = append(append([]crew.Task(nil), job.Tasks...), crew.Task{Key: "new", Minutes: 20, Place: crew.Site})
		for name, changed := range map[string]crew.Job{"same": job, "fewer": fewer, "more": more, "hands": hands} {
			s, _, err := crew.Settle(changed, crew.Options{Seed: seed, Schedules: 4, Runs: 1, Like: &old})
			require.NoError(t, err, "%s, seed %d", name, seed)
			checkCrew(t, changed, s, true)
			alone, _, err := crew.Settle(changed, crew.Options{Seed: seed, Schedules: 4, Runs: 1})
			require.NoError(t, err)
			with[name] += s.Finish
			without[name] += alone.Finish
		}
		found += old.Finish
	}
	for _, name := range []string{"same", "fewer", "more"} {
		assert.Less(t, with[name], without[name], name)
	}
	assert.Less(t, 3*(with["same"]-found), 2*(without["same"]-found), "a third of the way to what three hundred find")
}
