package crew

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew/genetic"
)

// plainJob is a job on site with a practised person for every task and doors that open after everything is done.
func plainJob(tasks []Task, things ...Thing) *decoder {
	job := Job{Doors: 1000, Things: things}
	for i := range tasks {
		tasks[i].Key, tasks[i].Place = strconv.Itoa(i), Site
		job.People = append(job.People, Person{Key: tasks[i].Key, Practised: true})
	}
	job.Tasks = tasks
	m, err := newModel(&job)
	if err != nil {
		panic(err)
	}
	return newDecoder(m)
}

// TestCriticalPathOfTheTextbook checks Taylor, Introduction to Management Science, chapter 8, solved problems 5 and 6:
// activities on arcs.
func TestCriticalPathOfTheTextbook(t *testing.T) {
	type arc struct{ from, to, duration int }
	rows := []struct {
		name   string
		arcs   []arc
		length int
		early  []int // starts; nil if the book's table was not available
		late   []int
		slack  []int
	}{
		{"problem 5", []arc{{1, 2, 7}, {1, 3, 10}, {2, 4, 6}, {3, 4, 5}, {3, 5, 4}, {4, 5, 3}, {5, 6, 2}}, 20,
			[]int{0, 0, 7, 10, 10, 15, 18}, []int{2, 0, 9, 10, 14, 15, 18}, []int{2, 0, 2, 0, 4, 0, 0}},
		{"problem 6", []arc{{1, 2, 8}, {1, 3, 10}, {1, 4, 9}, {2, 5, 6}, {2, 6, 4}, {3, 5, 5}, {4, 5, 0}, {4, 7, 7},
			{5, 7, 12}, {5, 8, 15}, {6, 9, 18}, {7, 8, 4}, {8, 9, 7}}, 38,
			nil, nil, []int{1, 0, 6, 1, 8, 0, 6, 11, 0, 1, 8, 0, 0}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			tasks := make([]Task, len(row.arcs))
			for i, a := range row.arcs {
				tasks[i].Minutes = float64(a.duration)
				for k, b := range row.arcs {
					if b.to == a.from {
						tasks[i].Before = append(tasks[i].Before, strconv.Itoa(k))
					}
				}
			}
			d := plainJob(tasks)
			early, late := genetic.NewPlan(len(tasks), false), genetic.NewPlan(len(tasks), false)
			d.Forward(make([]int, len(tasks)), &early)
			d.Backward(make([]int, len(tasks)), &late)
			assert.Equal(t, row.length, d.schedule(false, 1).Finish)
			assert.Equal(t, d.Bound(), early.Cost, "nothing may end sooner than the critical path")
			var slack []int
			for i := range tasks {
				slack = append(slack, late.Start[i]-early.Start[i])
			}
			assert.Equal(t, row.slack, slack)
			if row.early != nil {
				assert.Equal(t, row.early, early.Start)
				assert.Equal(t, row.late, late.Start)
			}
		})
	}
}

// TestJustifyNeverLengthens checks that with a person for every task, pushing a schedule to the right and back to the
// left (double justification: Valls, Ballestín and Quintanilla 2005) never makes it longer.
func TestJustifyNeverLengthens(t *testing.T) {
	for seed := range 200 {
		var tasks []Task
		for i := range 25 {
			task := Task{Minutes: float64((seed*7 + i*5) % 9)}
			for thing, units := range []int{(seed + i*3) % 6, (seed*3 + i*i) % 5} {
				if units > 0 {
					task.Needs = append(task.Needs, Need{Thing: strconv.Itoa(thing), Units: units})
				}
			}
			for k := max(0, i-4); k < i; k++ {
				if (seed+i*k)%4 == 0 {
					task.Before = append(task.Before, strconv.Itoa(k))
				}
			}
			tasks = append(tasks, task)
		}
		d := plainJob(tasks, Thing{Key: "0", Count: 6}, Thing{Key: "1", Count: 5})
		first, right, left := genetic.NewPlan(25, false), genetic.NewPlan(25, false), genetic.NewPlan(25, false)
		d.Forward(d.openings(nil, nil)[seed%3].Start, &first)
		keys := make([]int, 25)
		for task, end := range first.Finish {
			keys[task] = -end
		}
		d.Backward(keys, &right)
		d.Forward(right.Start, &left)
		require.LessOrEqual(t, left.Cost, first.Cost, "seed %d", seed)
		require.GreaterOrEqual(t, left.Cost, d.Bound(), "seed %d", seed)
	}
}
