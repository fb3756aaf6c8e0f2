package crew_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

const laws = 40 // random jobs for each law; the seed is printed on failure

func settle(t *testing.T, job crew.Job, seed uint64, keep ...crew.Schedule) (crew.Schedule, crew.Forecast) {
	t.Helper()
	s, f, err := crew.Settle(job, crew.Options{Seed: seed, Schedules: 60, Runs: 200, Keep: keep})
	require.NoError(t, err, "seed %d", seed)
	return s, f
}

// TestOddsNeverFallWhenThingsGetEasier checks changes that can only help: with the old plan kept, the odds are no
// worse. The windows are the site's, the place that the doors close.
func TestOddsNeverFallWhenThingsGetEasier(t *testing.T) {
	changes := map[string]func(crew.Job) crew.Job{
		"one more pair of hands": moreHands(crew.Person{Key: "more", Practised: false}),
		"a longer window": func(j crew.Job) crew.Job {
			j.Doors += 17
			j.Windows[crew.Site] = []crew.Interval{{From: 0, To: j.Doors}}
			return j
		},
		"less work":        lighten("t1", 0.5),
		"a card left out":  crew.LeaveOut(func(t crew.Task) bool { return t.Key == "t2" }),
		"another ladder":   moreOf("ladder", 1),
		"an earlier start": sooner(crew.Site, 15),
	}
	for seed := range uint64(laws) {
		job := randomJob(seed, 4+int(seed%9), true)
		job.Windows[crew.Site] = []crew.Interval{{From: 20, To: job.Doors}}
		plan, before := settle(t, job, seed)
		for name, change := range changes {
			easier := change(job)
			kept, err := crew.Carry(plan, easier)
			require.NoError(t, err, "seed %d, %s", seed, name)
			checkCrew(t, easier, kept, false)
			_, after := settle(t, easier, seed, plan)
			assert.GreaterOrEqual(t, after.Done, before.Done, "seed %d, %s", seed, name)
		}
	}
}

func TestDroppingACardNeverLengthens(t *testing.T) {
	for seed := range uint64(laws) {
		job := randomJob(seed, 4+int(seed%9), true)
		plan, _ := settle(t, job, seed)
		for _, task := range job.Tasks {
			kept, err := crew.Carry(plan, crew.LeaveOut(func(other crew.Task) bool { return other.Key == task.Key })(job))
			require.NoError(t, err)
			assert.LessOrEqual(t, kept.Finish, plan.Finish, "seed %d without %s", seed, task.Key)
		}
	}
}

func TestMoreSchedulesAreNeverWorse(t *testing.T) {
	for seed := range uint64(20) {
		job := randomJob(seed, 12, true)
		for i := range job.Tasks {
			job.Tasks[i].Priority = crew.Priority((i + int(seed)) % 3)
		}
		search, err := crew.NewSearch(job, seed, 300)
		require.NoError(t, err)
		last := search.Improve(1)
		for range 10 {
			next := search.Improve(30)
			assert.LessOrEqual(t, cost(job, next), cost(job, last), "seed %d", seed)
			last = next
		}
	}
}

// cost is the cost that the search minimises, from its description: minutes of the ends of the places, on site 64 each,
// and of its musts and shoulds, 4 each. A must that waits on site for a could is no must before the could is done.
func cost(job crew.Job, s crew.Schedule) (all int) {
	ends := map[crew.Place]int{}
	must, should, musts, shoulds := 0, 0, 0, 0
	job.Tasks = append([]crew.Task(nil), job.Tasks...)
	for range job.Tasks { // as long as any chain
		for i := range job.Tasks {
			for _, first := range job.Tasks {
				if first.Place == crew.Site && contains(job.Tasks[i].Before, first.Key) {
					job.Tasks[i].Priority = max(job.Tasks[i].Priority, first.Priority)
				}
			}
		}
	}
	for i, slot := range s.Slots {
		task := job.Tasks[i]
		ends[task.Place] = max(ends[task.Place], slot.End)
		if task.Place == crew.Site && task.Priority == crew.Must {
			must, musts = max(must, slot.End), 2
		}
		if task.Place == crew.Site && task.Priority <= crew.Should {
			should, shoulds = max(should, slot.End), 1
		}
	}
	return 4*ends[crew.Home] + 8*ends[crew.Load] + 64*ends[crew.Site] + 8*ends[crew.TakeDown] +
		4*(musts*must+shoulds*should)
}

// TestMustsComeFirst has a wall that could be there and an arch that must, one person, and time for one of them. The
// arch comes first, whatever their order in the list.
func TestMustsComeFirst(t *testing.T) {
	for _, doors := range []int{60, 200} {
		job := crew.Job{Doors: doors, People: []crew.Person{{Key: "ines", Practised: true}}}
		job.Tasks = []crew.Task{
			{Key: "wall", Minutes: 50, Place: crew.Site, Priority: crew.Could},
			{Key: "tables", Minutes: 40, Place: crew.Site, Priority: crew.Should},
			{Key: "arch", Minutes: 45, Place: crew.Site},
		}
		for range 3 {
			checkMustsFirst(t, job)
			swept := job // the last card waits for all others, but must not turn them into musts
			swept.Tasks = append(
				[]crew.Task{{Key: "sweep", Place: crew.Site, Before: []string{"wall", "tables", "arch"}}},
				job.Tasks...)
			checkMustsFirst(t, swept)
			job.Tasks = append(job.Tasks[1:], job.Tasks[0])
		}
	}
}

func checkMustsFirst(t *testing.T, job crew.Job) {
	t.Helper()
	s, _ := settle(t, job, 1)
	arch, _ := s.Slot("arch")
	tables, _ := s.Slot("tables")
	assert.Equal(t, []int{45, 85, 135}, []int{arch.End, tables.End, s.Finish}, "doors %d", job.Doors)
}

func TestTickingEverythingGivesDone(t *testing.T) {
	job := readingRoom(30)
	var progress []crew.Progress
	for _, task := range job.Tasks {
		progress = append(progress, crew.Progress{Task: task.Key, Done: true, Practised: task.Minutes,
			ByPractised: 1})
	}
	left := crew.Left(job, job.Doors-30, progress)
	assert.Empty(t, left.Tasks)
	s, f := settle(t, left, 1)
	assert.Equal(t, 1.0, f.Done)
	assert.Equal(t, job.Doors-30, s.Finish)
	assert.True(t, s.Proven)
}
