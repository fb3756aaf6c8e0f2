package crew_test

import (
	"strconv"
	"testing"

	"garlandry/calc/crew"
	"garlandry/calc/crew/internal/psplib"
)

// BenchmarkCrew measures schedules per second for 30, 60 and 120 cards with four people, and how this grows.
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

// BenchmarkShared measures the bare problem: tasks with four shared resources, as in PSPLIB.
func BenchmarkShared(b *testing.B) {
	for _, n := range []int{30, 60, 120} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			in := psplib.Instance{Tasks: make([]psplib.Task, n), Capacity: []int{14, 13, 9, 11}}
			for i := range in.Tasks {
				in.Tasks[i] = psplib.Task{Duration: 1 + i*7%10, Needs: []int{i * 3 % 9, i * 5 % 7, i % 4, i * 2 % 5}}
				for back := 3; back <= min(9, i); back += 3 {
					in.Tasks[i].After = append(in.Tasks[i].After, i-back)
				}
			}
			job, tried := instanceJob(in), 0
			for range b.N {
				search, err := crew.NewSearch(job, 1, 1000)
				if err != nil {
					b.Fatal(err)
				}
				tried += search.Improve(1000).Tried
			}
			b.ReportMetric(float64(tried)/b.Elapsed().Seconds(), "schedules/s")
		})
	}
}
