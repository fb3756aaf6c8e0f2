package rcpsp_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew/internal/rcpsp"
)

type arc struct{ from, to, duration int }

// Taylor, Introduction to Management Science, chapter 8, solved problems 5 and 6:
// activities on arcs.
func TestCriticalPathOfTheTextbook(t *testing.T) {
	rows := []struct {
		name   string
		arcs   []arc
		length int
		early  []int // starts; nil where the book's table was not seen
		late   []int
		slack  []int
	}{
		{"problem 5", []arc{{1, 2, 7}, {1, 3, 10}, {2, 4, 6}, {3, 4, 5}, {3, 5, 4}, {4, 5, 3}, {5, 6, 2}}, 20,
			[]int{0, 0, 7, 10, 10, 15, 18}, []int{2, 0, 9, 10, 14, 15, 18}, []int{2, 0, 2, 0, 4, 0, 0}},
		{
			"problem 6",
			[]arc{{1, 2, 8}, {1, 3, 10}, {1, 4, 9}, {2, 5, 6}, {2, 6, 4}, {3, 5, 5}, {4, 5, 0}, {4, 7, 7}, {5, 7, 12},
				{5, 8, 15}, {6, 9, 18}, {7, 8, 4}, {8, 9, 7}},
			38,
			nil,
			nil,
			[]int{1, 0, 6, 1, 8, 0, 6, 11, 0, 1, 8, 0, 0},
		},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			tasks := make([]rcpsp.Task, len(row.arcs))
			for i, a := range row.arcs {
				tasks[i].Duration = a.duration
				for k, b := range row.arcs {
					if b.to == a.from {
						tasks[i].After = append(tasks[i].After, k)
					}
				}
			}
			project, err := rcpsp.New(tasks, nil)
			require.NoError(t, err)
			assert.Equal(t, row.length, project.CriticalPath())
			early := project.Serial(project.Keys(rcpsp.LatestFinish))
			late := project.Serial(project.Keys(rcpsp.LatestFinish))
			project.Backward(project.Keys(rcpsp.ShortestFirst), &late)
			var slack []int
			for i := range tasks {
				slack = append(slack, late.Start[i]+row.length-early.Start[i])
				if row.early != nil {
					assert.Equal(t, row.early[i], early.Start[i])
					assert.Equal(t, row.late[i], late.Start[i]+row.length)
				}
			}
			assert.Equal(t, row.slack, slack)
		})
	}
}

func TestRefusals(t *testing.T) {
	for name, tasks := range map[string][]rcpsp.Task{
		"circle":    {{Duration: 1, After: []int{1}}, {Duration: 1, After: []int{0}}},
		"itself":    {{After: []int{0}}},
		"unknown":   {{After: []int{5}}},
		"too much":  {{Duration: 1, Needs: []int{3}}},
		"backwards": {{Duration: -1}},
	} {
		_, err := rcpsp.New(tasks, []int{2})
		assert.ErrorIs(t, err, rcpsp.ErrCannot, name)
	}
}

// Two passes never make a schedule longer, and no scheme beats the bound.
func TestJustifyNeverLengthens(t *testing.T) {
	for seed := range 200 {
		var tasks []rcpsp.Task
		for i := range 25 {
			task := rcpsp.Task{Duration: (seed*7 + i*5) % 9, Needs: []int{(seed + i*3) % 6, (seed*3 + i*i) % 5}}
			for k := max(0, i-4); k < i; k++ {
				if (seed+i*k)%4 == 0 {
					task.After = append(task.After, k)
				}
			}
			tasks = append(tasks, task)
		}
		project, err := rcpsp.New(tasks, []int{6, 5})
		require.NoError(t, err)
		for _, rule := range rcpsp.Rules() {
			serial, parallel := project.Serial(project.Keys(rule)), project.Parallel(project.Keys(rule))
			better := project.Justify(serial)
			assert.LessOrEqual(t, better.Cost, serial.Cost, "seed %d, %s", seed, rule)
			assert.GreaterOrEqual(t, better.Cost, project.Bound())
			assert.GreaterOrEqual(t, parallel.Cost, project.Bound())
			for i, task := range tasks {
				for _, before := range task.After {
					assert.GreaterOrEqual(t, parallel.Start[i], parallel.Finish[before])
				}
			}
		}
	}
}
