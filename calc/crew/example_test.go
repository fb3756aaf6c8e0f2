package crew_test

import (
	"fmt"

	"garlandry/calc/crew"
)

// In this example two people put up a frame, then one dresses it while the other hangs the sign. Minute 0 is when the
// library opens for them; the doors open at minute 60.
func Example() {
	job := crew.Job{
		Doors:  60,
		People: []crew.Person{{Key: "ines", Practised: true}, {Key: "bea"}},
		Tasks: []crew.Task{
			{Key: "frame", Minutes: 20, Beginner: 1.5, Least: 2, Spread: 0.3, Place: crew.Site},
			{Key: "garland", Minutes: 30, Beginner: 2, Spread: 0.3, Place: crew.Site, Before: []string{"frame"}},
			{Key: "sign", Minutes: 10, Beginner: 1.5, Spread: 0.3, Place: crew.Site},
		},
	}
	plan, odds, err := crew.Settle(job, crew.Options{Seed: 1, Schedules: 200})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, slot := range plan.Slots {
		fmt.Println(slot.Task, slot.Start, slot.End, slot.Spells, slot.WaitedFor)
	}
	fmt.Printf("done at %d; %.0f %% by the doors, nine in ten by %d\n", plan.Finish, 100*odds.Done, odds.Ninety)
	// Output:
	// frame 0 12 [{ines 0 12} {bea 0 12}] []
	// garland 12 42 [{ines 12 42}] [frame]
	// sign 12 27 [{bea 12 27}] [frame]
	// done at 42; 96 % by the doors, nine in ten by 55
}
