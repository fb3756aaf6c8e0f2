package crew_test

import (
	"strconv"
	"testing"

	"garlandry/calc/crew"
	"garlandry/calc/crew/internal/rcpsp"
)

// Schedules a second for 30, 60 and 120 cards with four people, and how they grow.
func BenchmarkCrew(b *testing.B) {
	for _, cards := range []int{30, 50, 60, 120} {
		b.Run(strconv.Itoa(cards), func(b *testing.B) {
			tried := 0
			for range b.N {
				search, err := crew.NewSearch(readingRoom(cards), 1, 1000)
				if err != nil {
					b.Fatal(err)
				}
				tried += search.Improve(1000).Tried
			}
			b.ReportMetric(float64(tried)/b.Elapsed().Seconds(), "schedules/s")
		})
	}
}

func BenchmarkFirstPlan(b *testing.B) {
	for range b.N {
		search, err := crew.NewSearch(readingRoom(50), 1, 1000)
		if err != nil {
			b.Fatal(err)
		}
		search.Improve(1)
	}
}

func BenchmarkOdds(b *testing.B) {
	search, err := crew.NewSearch(readingRoom(50), 1, 1000)
	if err != nil {
		b.Fatal(err)
	}
	plan := search.Improve(1)
	b.ResetTimer()
	for range b.N {
		crew.Odds(plan, 1, crew.Runs)
	}
}

// The bare problem, tasks with four shared resources as in PSPLIB.
func BenchmarkShared(b *testing.B) {
	for _, n := range []int{30, 60, 120} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			tasks := make([]rcpsp.Task, n)
			for i := range tasks {
				tasks[i] = rcpsp.Task{Duration: 1 + i*7%10, Needs: []int{i * 3 % 9, i * 5 % 7, i % 4, i * 2 % 5}}
				for back := 3; back <= 9; back += 3 {
					if i >= back {
						tasks[i].After = append(tasks[i].After, i-back)
					}
				}
			}
			project, err := rcpsp.New(tasks, []int{14, 13, 9, 11})
			if err != nil {
				b.Fatal(err)
			}
			tried := 0
			for range b.N {
				search := project.Search(1, 5000)
				search.Improve(5000)
				tried += search.Used()
			}
			b.ReportMetric(float64(tried)/b.Elapsed().Seconds(), "schedules/s")
		})
	}
}
