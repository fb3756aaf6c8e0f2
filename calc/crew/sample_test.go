package crew_test

import (
	"fmt"
	"math/rand/v2"

	"garlandry/calc/crew"
)

// readingRoom is the reopening of a town library's reading room. Minutes count from midnight of the day before; the
// doors open at 18:00 on the day.
func readingRoom(cards int) crew.Job {
	day := 24 * 60
	job := crew.Job{
		People: []crew.Person{
			{Key: "ines", Practised: true},
			{Key: "tomasz", Free: []crew.Interval{{From: 18 * 60, To: 22 * 60}, {From: day + 9*60, To: day + 19*60}}},
			{Key: "bea", Free: []crew.Interval{{From: day + 14*60, To: day + 19*60}},
				Only: []crew.Place{crew.Site, crew.TakeDown}},
			{Key: "olek", Practised: true, Free: []crew.Interval{{From: day + 13*60, To: day + 17*60}},
				Only: []crew.Place{crew.Site}},
		},
		Things: []crew.Thing{{Key: "pump", Count: 1}, {Key: "ladder", Count: 1}, {Key: "car", Count: 1}},
		Rates:  []crew.Rate{{Kind: "cluster", Factor: 1, Spread: 0.15}, {Kind: "frame", Factor: 1, Spread: 0.1}},
		Drive:  25, Doors: day + 18*60,
	}
	job.Windows[crew.Home] = []crew.Interval{{From: 18 * 60, To: 22 * 60}, {From: day + 9*60, To: day + 12*60}}
	job.Windows[crew.Load] = []crew.Interval{{From: day + 9*60, To: day + 13*60}}
	job.Windows[crew.Site] = []crew.Interval{{From: day + 13*60, To: day + 18*60}}
	job.Windows[crew.TakeDown] = []crew.Interval{{From: day + 22*60, To: day + 24*60}}
	job.Tasks = append(
		job.Tasks,
		crew.Task{Key: "load", Kind: "car", Minutes: 15, Most: 2, Place: crew.Load,
			Needs: []crew.Need{{Thing: "car"}}, Spread: 0.2},
	)
	for piece := 0; len(job.Tasks) < cards; piece++ {
		name := fmt.Sprintf("piece%d", piece)
		add := func(key string, t crew.Task) {
			t.Key, t.Piece, t.Priority = key+"/"+name, name, crew.Priority(piece%3)
			job.Tasks = append(job.Tasks, t)
		}
		minutes := float64(8 + 5*(piece%4))
		add(
			"make",
			crew.Task{Kind: "cluster", Minutes: 2 * minutes, Beginner: 2, Most: 3, Crowding: 0.03,
				Spread: 0.3, Splittable: true, Place: crew.Home, Needs: []crew.Need{{Thing: "pump", Serves: 2}}},
		)
		add("frame", crew.Task{Kind: "frame", Minutes: 16, Beginner: 1.5, Least: 2, Most: 2, Spread: 0.3, Place: crew.Site})
		add(
			"fix",
			crew.Task{Kind: "cluster", Minutes: minutes, Beginner: 2, Most: 3, Crowding: 0.05,
				Spread: 0.3, Splittable: piece%2 == 0, Place: crew.Site, Before: []string{"frame/" + name},
				Needs: []crew.Need{{Thing: "ladder"}}},
		)
		add(
			"accents",
			crew.Task{Kind: "cluster", Minutes: minutes, Beginner: 2, Most: 2, Spread: 0.4,
				Splittable: true, Place: crew.Site, Before: []string{"fix/" + name}},
		)
		add("down", crew.Task{Kind: "down", Minutes: 8, Beginner: 1.5, Most: 2, Spread: 0.2, Place: crew.TakeDown})
	}
	job.Tasks = job.Tasks[:cards]
	return job
}

// randomJob returns a small random job: things may be shared, hands scarce, and work late.
func randomJob(seed uint64, tasks int, splittable bool) crew.Job {
	r := rand.New(rand.NewPCG(seed, 7))
	job := crew.Job{Doors: 60 + r.IntN(240), Drive: r.IntN(20),
		Things: []crew.Thing{{Key: "pump", Count: 1 + r.IntN(2)}, {Key: "ladder", Count: 1}}}
	for i := range 2 + r.IntN(3) {
		p := crew.Person{Key: fmt.Sprint("p", i), Practised: r.IntN(2) == 0}
		if r.IntN(2) == 0 {
			from := r.IntN(60)
			p.Free = []crew.Interval{{From: from, To: from + 30 + r.IntN(200)}}
			p.Free = append(p.Free, crew.Interval{From: p.Free[0].To + 10, To: p.Free[0].To + 200})
		}
		job.People = append(job.People, p)
	}
	for i := range tasks {
		t := crew.Task{
			Key: fmt.Sprint(
				"t",
				i,
			), Kind: fmt.Sprint("k", r.IntN(3)), Piece: fmt.Sprint("piece", i%4), Minutes: float64(1 + r.IntN(60)),
			Beginner: 1 + float64(r.IntN(3))/2, Least: 1 + r.IntN(2), Crowding: float64(r.IntN(3)) * 0.05, Spread: 0.3,
			Splittable: splittable && r.IntN(2) == 0, Place: []crew.Place{crew.Site, crew.Home, crew.Load, crew.Site}[r.IntN(4)],
		}
		t.Most = t.Least + r.IntN(3)
		if r.IntN(2) == 0 {
			t.Needs = []crew.Need{{Thing: []string{"pump", "ladder"}[r.IntN(2)]}}
		}
		for k := range i {
			if r.IntN(4) == 0 && job.Tasks[k].Place <= t.Place && (job.Tasks[k].Place != crew.Site || t.Place == crew.Site) {
				t.Before = append(t.Before, fmt.Sprint("t", k))
			}
		}
		if t.Least < 3 && r.IntN(5) == 0 {
			t.Taken = []string{job.People[r.IntN(2)].Key}
		}
		job.Tasks = append(job.Tasks, t)
	}
	return job
}
