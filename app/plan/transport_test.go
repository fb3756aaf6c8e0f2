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
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
	"garlandry/calc/cluster"
)

// withCar puts a car as long as 1700 mm, and as wide and high as a side, into the kit.
func withCar(sideMM float64) []job.Change {
	return []job.Change{job.Put("kit/car", "kind", "car"), job.Put("kit/car", "name", "Estate car"),
		job.Put("kit/car", "longest_mm", 1700), job.Put("kit/car", "litres", sideMM*sideMM*1700/1e6)}
}

func noteTexts(p plan.Plan) string {
	var all []string
	for _, n := range p.Notes {
		all = append(all, n.Text)
	}
	return strings.Join(all, "\n")
}

// A base goes in joined sections, else as loose clusters that are joined at the venue, else it is made there. A soft
// thing gives a tenth (common practice, no source).
func TestWhatTheCarDoesNotTakeIsMadeAtTheVenue(t *testing.T) {
	vow, _ := readJob(t, "hilltop-wedding").Piece("vow")
	base, ball := cluster.WidestMM(vow.Recipe, cluster.StandardPush()), cluster.BallMM(vow.Recipe)
	require.Less(t, ball, base)
	for _, row := range []struct {
		name       string
		sideMM     float64
		make, join task.Place
		pack       string // unit of the ready-made line
		says       string
	}{
		{"sections", 1.02 * base, task.Home, task.Home, "sections", ""},
		{"clusters", 0.9 * (base + ball) / 2, task.Home, task.Site, "bags", "Its clusters travel loose"},
		{"nothing", 0.89 * ball, task.Site, task.Site, "", "made at the venue"},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(job.Try(bringAll(readJob(t, "hilltop-wedding")), withCar(row.sideMM)))
			all := cards(p)
			assert.Equal(t, row.make, all["card/make/vow"].Place)
			assert.Equal(t, row.join, all["card/join/vow"].Place)
			assert.Equal(t, row.make, all["card/accents/vow"].Place)
			assert.Positive(t, all["card/join/vow"].Minutes)
			assert.Contains(t, task.Keys(all["card/fix/vow"].After), "card/join/vow")
			line, packed := packLines(p)["pack/made/vow"]
			assert.Equal(t, row.pack != "", packed)
			if packed {
				assert.Equal(t, row.pack, line.Unit)
			}
			if row.says != "" {
				assert.Contains(t, noteTexts(p), row.says)
			} else {
				assert.NotContains(t, noteTexts(p), "Vow garland does not fit")
			}
			assert.Equal(t, row.make == task.Site, strings.Contains(strings.Join(p.BuiltOnSite(), ","), "Vow garland"))
			for key, card := range all {
				if strings.HasPrefix(key, "card/trip/") && row.make == task.Site {
					assert.NotContains(t, strings.Join(card.Steps, " "), "Vow garland")
				}
			}
			if row.join == task.Site && row.make == task.Home {
				for _, trip := range tripsFor(t, p, "Vow garland") {
					assert.Contains(t, task.Keys(all["card/join/vow"].After), trip)
				}
			}
		})
	}
}

// tripsFor lists the trips whose steps say that they bring something of a piece.
func tripsFor(t *testing.T, p plan.Plan, name string) (keys []string) {
	t.Helper()
	for _, c := range p.Cards {
		if strings.HasPrefix(c.Key, "card/trip/") && strings.Contains(c.Steps[0], " of "+name) {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

// errands makes a random job of pieces made at home, with one to three cars.
func errands(seed uint64) job.Job {
	r := rand.New(rand.NewPCG(seed, 3))
	changes := []job.Change{job.Put("member/ines", "name", "Ines"), job.Put("member/ines", "drives", true),
		job.Put("member/bea", "name", "Bea"), job.Put("member/bea", "drives", true),
		job.Put("member/olek", "name", "Olek"), job.Put("member/olek", "drives", true)}
	for i := range 1 + r.IntN(3) {
		entity := fmt.Sprint("kit/car", i)
		changes = append(changes, job.Put(entity, "kind", "car"), job.Put(entity, "name", fmt.Sprint("Car ", i)),
			job.Put(entity, "order", i), job.Put(entity, "litres", 700+100*r.IntN(20)))
	}
	for i := range 1 + r.IntN(4) {
		values := map[string]any{"recipe": []string{"2x11@9.5", "3x11@10", "1x5@4.5 + 2x11@9"}[r.IntN(3)],
			"accents": r.IntN(6), "colours": shares("coral", 1.0), "built": "home",
			"order": i, "length_mm": 1000 + 500*r.IntN(12),
			"height_mm": 1500, "count": 1 + r.IntN(4), "each": 6,
			"priority": []string{"must", "should", "could"}[r.IntN(3)]}
		kind := []string{"garland", "column", "tables"}[r.IntN(3)]
		changes = append(changes, piece(fmt.Sprint("p", i), kind, values)...)
	}
	return bringAll(made(changes...))
}

// Every section, cluster and balloon made at home is in one load, no load is more than its car takes, and a piece is
// put up after every trip that brings any of it.
func TestAPieceWaitsForAllItsLoads(t *testing.T) {
	trips := 0
	for seed := range uint64(150) {
		j := errands(seed)
		p, d := plan.Make(j), count.New(j, count.Kinds())
		car, all := transport.New(d), cards(p)
		brought, first := map[string]int{}, map[string]bool{}
		for _, load := range car.Loads {
			litres := 0.0
			for _, thing := range load.Things {
				brought[thing.Piece] += thing.Count
				litres += thing.Litres
				key := "card/trip/" + fmt.Sprint(load.Number)
				if id := car.Cars[load.Car].ID; !car.Cars[load.Car].First {
					key = "card/trip/" + id + "-" + fmt.Sprint(load.Number)
				}
				if load.Number == 1 {
					first[thing.Piece] = true
					continue
				}
				trips++
				require.Contains(t, all, key, "seed %d", seed)
				assert.Contains(t, task.Keys(all["card/fix/"+thing.Piece].After), key, "seed %d", seed)
				assert.Contains(t, all[key].Steps[0], thing.Name, "seed %d", seed)
				assert.Equal(t, []string{car.Cars[load.Car].ID}, all[key].Cars)
			}
			assert.LessOrEqual(t, litres, car.Cars[load.Car].Litres*(1+1e-9), "seed %d", seed)
		}
		for _, c := range d.Pieces {
			want := c.Clusters
			switch {
			case c.InSections():
				want = len(c.Sections)
			case c.Clusters == 0:
				want = c.Make.Count
			}
			if c.OnSite {
				want = 0
			}
			assert.Equal(t, want, brought[c.Piece.ID], "seed %d, %s", seed, c.Piece.ID)
			assert.Contains(t, task.Keys(all["card/fix/"+c.Piece.ID].After), "card/unload", "seed %d", seed)
		}
	}
	assert.Greater(t, trips, 100)
}

// What is tied together at home travels whole: a load brings table pieces, and duplets of a number. Loose balloons of
// several sizes are one number.
func TestWhatIsTiedTravelsWhole(t *testing.T) {
	fete := bringAll(job.Try(readJob(t, "school-fete"), []job.Change{job.Put("piece/giants", "built", "home")}))
	load := transport.New(count.New(fete, count.Kinds()))
	whole := map[string]int{}
	for _, l := range load.Loads {
		for _, thing := range l.Things {
			whole[thing.Piece+" "+thing.One] += thing.Count
		}
		assert.LessOrEqual(t, strings.Count(l.Words(), "Stall bunches"), 1)
		assert.LessOrEqual(t, strings.Count(l.Words(), "Door giants"), 1)
	}
	assert.Equal(t, 12, whole["stalls table piece"])
	assert.Equal(t, 50, whole["years duplet"])
	assert.Equal(t, 24, whole["giants balloon"])
	narrow := job.Try(fete, []job.Change{job.Put("brief", "door_mm", 400)}) // a bunch is 2 x 9.5 in, a tenth softer
	assert.Contains(t, noteTexts(plan.Make(narrow)), "Stall bunches does not fit")
}

// What a note says of a piece's further loads is what their cards take, over a long way in too.
func TestTheFurtherLoadsTakeWhatTheirCardsTake(t *testing.T) {
	for _, name := range []string{"ferry-lobby", "school-fete"} {
		j := job.Try(bringAll(readJob(t, name)), []job.Change{job.Put("brief", "carry_mm", 600e3),
			job.Put("brief", "flights", 2)})
		p, compared := plan.Make(j), 0
		for _, m := range transport.New(count.New(j, count.Kinds())).Brought {
			least, most := math.Inf(1), 0.0
			for _, key := range tripsFor(t, p, m.Name) {
				least, most = min(least, cards(p)[key].Minutes), max(most, cards(p)[key].Minutes)
			}
			if m.Rounds > 0 && most > 0 {
				each := m.Away / float64(m.Rounds)
				assert.Greater(t, each, 0.9*least, "%s: %s", name, m.Name)
				assert.Less(t, each, 1.15*most, "%s: %s", name, m.Name)
				compared++
			}
		}
		assert.Positive(t, compared, name)
	}
}

// Table pieces are twisted: their card counts it, and nothing counts work that there is none of.
func TestTablePiecesTakeTheirTwists(t *testing.T) {
	for _, c := range plan.Make(readJob(t, "ferry-lobby")).Cards {
		for _, line := range c.Working {
			assert.False(t, strings.HasPrefix(line.How, "0 x"), "%s: %s", c.Key, line.How)
			if c.Key == "card/make/tables" && line.What == "Twist a cluster" {
				assert.True(t, strings.HasPrefix(line.How, "10 x"), line.How)
			}
		}
		if c.Key == "card/make/tables" {
			assert.InDelta(t, 30*0.4+10*0.3, c.MinutesBy["practised"], 1e-9)
		}
	}
}

// Every trip is a card of its own, up to thirty loads of a car. What needs more is made at the venue.
func TestEveryTripIsACard(t *testing.T) {
	seen := 0
	for _, metres := range []int{10, 25, 45, 60, 200} {
		p := plan.Make(bringAll(garland(1000*metres, withCar(700)...)))
		n := 0
		for _, c := range p.Cards {
			if strings.HasPrefix(c.Key, "card/trip/") {
				n++
				assert.Equal(t, fmt.Sprint("card/trip/", n+1), c.Key)
				assert.InDelta(t, 2*20+2*15, c.MinutesBy["practised"], 1e-9, "there and back, and one load")
			}
		}
		seen = max(seen, n)
		if metres == 200 {
			assert.Zero(t, n)
			assert.Equal(t, task.Site, cards(p)["card/make/door"].Place)
			assert.Contains(t, noteTexts(p), "more than 30 loads")
		}
	}
	assert.Greater(t, seen, 10)
}

// Two cars of their own size, each with its own driver, and the keys of the first car's trips stay as they were.
func TestEachCarIsItsOwnSize(t *testing.T) {
	lobby := bringAll(readJob(t, "ferry-lobby"))
	p := plan.Make(lobby)
	trip := cards(p)["card/trip/2"]
	assert.Equal(t, []string{"estate"}, trip.Cars)
	assert.Equal(t, []string{"nora"}, trip.By)
	assert.Contains(t, noteTexts(p), "your 1600 and 300 litres")
	same := plan.Make(job.Try(lobby, []job.Change{job.Put("kit/hatch", "litres", 1600),
		job.Put("kit/hatch", "longest_mm", 1900)}))
	assert.Equal(t, []string{"estate"}, cards(same)["card/trip/2"].Cars)
	assert.Equal(t, []string{"hatch"}, cards(same)["card/trip/hatch-2"].Cars)
	assert.Equal(t, []string{"emil"}, cards(same)["card/trip/hatch-2"].By)
	assert.Less(t, len(tripKeys(same)), len(tripKeys(p)))
	alone := plan.Make(job.Try(lobby, []job.Change{job.Put("kit/hatch", "removed", true),
		job.Put("card/trip/2", "done", true)}))
	assert.True(t, cards(alone)["card/trip/2"].Done)
	assert.False(t, cards(alone)["card/trip/2"].Gone)
	ticked := plan.Make(job.Try(lobby, []job.Change{job.Put("card/trip/2", "done", true)}))
	assert.True(t, cards(ticked)["card/trip/2"].Done, "a second car changes no tick")
	nobody := plan.Make(job.Try(lobby, []job.Change{job.Put("kit/hatch", "driver", "nora")}))
	assert.Contains(t, noteTexts(nobody), "Hatchback stays at home: nobody is left to drive it")
	for _, c := range nobody.Cards {
		assert.NotContains(t, c.Cars, "hatch")
	}
}

func tripKeys(p plan.Plan) (keys []string) {
	for _, c := range p.Cards {
		if strings.HasPrefix(c.Key, "card/trip/") {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

// A larger car, or another with its driver, never needs more rounds of loads.
func TestALargerCarNeverNeedsMoreRounds(t *testing.T) {
	rounds := func(j job.Job) int {
		p := transport.New(count.New(j, count.Kinds()))
		return p.Rounds()
	}
	for seed := range uint64(100) {
		j := errands(seed)
		before := rounds(j)
		for _, k := range j.Kit {
			larger := job.Try(j, []job.Change{job.Put("kit/"+k.ID, "litres", k.Litres+100+float64(seed*7%900))})
			assert.LessOrEqual(t, rounds(larger), before, "seed %d", seed)
		}
		more := job.Try(j, []job.Change{job.Put("kit/more", "kind", "car"), job.Put("kit/more", "name", "One more"),
			job.Put("kit/more", "order", 9), job.Put("kit/more", "litres", 900),
			job.Put("member/pia", "name", "Pia"), job.Put("member/pia", "drives", true)})
		assert.LessOrEqual(t, rounds(more), before, "seed %d", seed)
	}
}

// Who may fetch a load: the car's driver, else those who can drive, else practised people, else the owner.
func TestWhoFetchesALoad(t *testing.T) {
	crew := []job.Change{job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Bea"),
		job.Put("member/c", "name", "Olek")}
	base := append(withCar(700), crew...)
	skilled := job.Put("member/a", "skill", "practised")
	for _, row := range []struct {
		name string
		more []job.Change
		want []string
		asks bool
	}{
		{"the car's driver", []job.Change{skilled, job.Put("member/b", "drives", true),
			job.Put("kit/car", "driver", "c")}, []string{"c"}, false},
		{"those who can drive", []job.Change{skilled, job.Put("member/b", "drives", true),
			job.Put("member/c", "drives", true)}, []string{"b", "c"}, false},
		{"practised people", []job.Change{skilled}, []string{"a"}, true},
		{"the owner, no beginner", nil, []string{""}, true},
		{"a driver who left the crew", []job.Change{skilled, job.Put("kit/car", "driver", "gone")},
			[]string{"a"}, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(bringAll(garland(10_000, append(append([]job.Change(nil), base...), row.more...)...)))
			require.NotEmpty(t, tripKeys(p))
			assert.Equal(t, row.want, cards(p)["card/trip/2"].By)
			assert.Equal(t, row.asks, strings.Contains(noteTexts(p), "Who drives?"))
		})
	}
}

// Without a car nothing is loaded, carried in or fetched, and there is no drive.
func TestAtHomeNothingIsCarried(t *testing.T) {
	for name, j := range map[string]job.Job{"attic-birthday": readJob(t, "attic-birthday"),
		"made at home": job.Try(readJob(t, "ferry-lobby"), []job.Change{job.Put("brief", "travel", "none")})} {
		p := plan.Make(j)
		for _, c := range p.Cards {
			switch task.RefTo(c.Key).Family {
			case task.FamilyLoad, task.FamilyUnload, task.FamilyTrip, task.FamilyCarry, task.FamilyReload,
				task.FamilyPack:
				assert.Fail(t, "at home", "%s: %s", name, c.Title)
			}
			assert.Empty(t, c.Cars, name)
		}
		assert.Zero(t, p.Drive, name)
		assert.NotContains(t, noteTexts(p), "litres", name)
	}
}

// The brief's drive counts before the figure.
func TestTheDriveIsTheBriefs(t *testing.T) {
	assert.InDelta(t, 35, plan.Make(readJob(t, "hilltop-wedding")).Drive, 0)
	j := bringAll(garland(10_000, append(withCar(700), job.Put("override/clock/drive", "value", 50))...))
	assert.InDelta(t, 50, plan.Make(j).Drive, 0)
	near := job.Try(j, []job.Change{job.Put("brief", "drive_min", 5)})
	far, close := cards(plan.Make(j))["card/trip/2"], cards(plan.Make(near))["card/trip/2"]
	assert.InDelta(t, 90, far.Minutes-close.Minutes, 1e-9)
}
