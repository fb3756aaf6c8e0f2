package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

// carrying lists the cards on which things are carried in or out.
func carrying(p plan.Plan) []task.Card {
	var list []task.Card
	for _, c := range p.Cards {
		switch task.RefTo(c.Key).Family {
		case task.FamilyUnload, task.FamilyTrip, task.FamilyReload:
			list = append(list, c)
		}
	}
	return list
}

// way says how things are carried in.
func way(metres, flights, lift int, trolley bool) []job.Change {
	return []job.Change{job.Put("brief", "carry_mm", 1000*metres), job.Put("brief", "flights", flights),
		job.Put("brief", "lift_bags", lift), job.Put("brief", "trolley", trolley)}
}

// A van of 6,000 litres, 250 m from the room, and a lift for six bags. By hand: n things are ceil(n/2) walks of twice
// 250 m at 1 m/s, and ceil(n/6) rides of 3 minutes; the figures are from memory.
func TestUnloadingFollowsFromTheWayIn(t *testing.T) {
	lobby := job.Try(readJob(t, "ferry-lobby"), []job.Change{job.Put("kit/hatch", "removed", true),
		job.Put("kit/estate", "litres", 6000), job.Put("kit/estate", "longest_mm", 3000)})
	door := cards(plan.Make(job.Try(lobby, way(0, 0, 0, false))))["card/unload"].Minutes
	p := plan.Make(job.Try(lobby, way(250, 0, 6, false)))
	unload := cards(p)["card/unload"]
	things := 0.0
	for _, line := range unload.Working {
		if line.What == "The way in" {
			_, err := fmt.Sscan(line.How, &things)
			require.NoError(t, err)
		}
	}
	require.Greater(t, things, 30.0)
	want := door + math.Ceil(things/2)*2*250/60 + math.Ceil(things/6)*3
	assert.InDelta(t, want, unload.Minutes, 1e-6)
	assert.Greater(t, unload.Minutes/2, 60.0, "not eighteen minutes for two")
	says := ""
	for _, line := range unload.Working {
		says += line.What + ": " + line.How + "\n"
	}
	assert.Contains(t, says, "The way in: ")
	assert.Contains(t, says, "2 x 250 m at 1 m/s")
	assert.Contains(t, says, "The lift: ")
}

// Further, higher, a smaller lift, no trolley and more things never take less.
func TestAHarderWayInNeverTakesLess(t *testing.T) {
	for seed := range uint64(80) {
		r := rand.New(rand.NewPCG(seed, 9))
		j := readJob(t, []string{"ferry-lobby", "hilltop-wedding", "school-fete", "orchard-wedding"}[seed%4])
		metres, flights, lift, trolley := r.IntN(400), r.IntN(6), r.IntN(12), r.IntN(2) == 0
		here := carrying(plan.Make(job.Try(j, way(metres, flights, lift, trolley))))
		require.NotEmpty(t, here)
		harder := map[string][]job.Change{
			"further":    way(metres+1+r.IntN(200), flights, lift, trolley),
			"higher":     way(metres, flights+1+r.IntN(3), lift, trolley),
			"no trolley": way(metres, flights, lift, false),
		}
		if lift > 1 {
			harder["a smaller lift"] = way(metres, flights, 1+r.IntN(lift-1), trolley)
		}
		for name, changes := range harder {
			there := carrying(plan.Make(job.Try(j, changes)))
			require.Len(t, there, len(here))
			for i := range here {
				assert.GreaterOrEqual(t, there[i].Minutes, here[i].Minutes-1e-9, "seed %d, %s: %s", seed, name,
					here[i].Key)
			}
		}
		for _, c := range here {
			if rides := linesOf(c, "The lift"); rides > 0 {
				hands := float64(min(c.HandsMax, 4))
				if strings.HasPrefix(c.Key, "card/trip/") {
					hands = 1
				}
				hands = min(hands, float64(max(1, len(j.Crew))))
				assert.GreaterOrEqual(t, c.Minutes/hands, rides-1, "seed %d: %s is faster than the lift", seed, c.Key)
			}
		}
	}
}

// linesOf returns the minutes that a line of a card's working says, 0 if there is none.
func linesOf(c task.Card, what string) (minutes float64) {
	for _, line := range c.Working {
		if line.What == what {
			var hours, rest float64
			if strings.Contains(line.Result, " h") {
				_, _ = fmt.Sscan(line.Result, &hours)
				if _, after, found := strings.Cut(line.Result, " h "); found {
					_, _ = fmt.Sscan(after, &rest)
				}
				return 60*hours + rest
			}
			_, _ = fmt.Sscan(line.Result, &minutes)
		}
	}
	return minutes
}

// More to carry never takes less: a garland grows by a metre at a time.
func TestMoreThingsNeverTakeLess(t *testing.T) {
	before := 0.0
	for metres := 1; metres < 12; metres++ {
		p := plan.Make(garland(1000*metres, append(way(120, 2, 0, true), job.Put("kit/van", "kind", "car"),
			job.Put("kit/van", "name", "Van"), job.Put("kit/van", "litres", 20_000))...))
		minutes := cards(p)["card/unload"].Minutes
		assert.GreaterOrEqual(t, minutes, before, "%d m", metres)
		before = minutes
	}
}
