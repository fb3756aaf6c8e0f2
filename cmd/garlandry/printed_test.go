package main

import (
	"encoding/json"
	"fmt"
	"garlandry/app/forecast"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// printedPlan is what `plan --json` prints of cards and clock. This test reads it as an outside program would.
type printedPlan struct {
	Cards []struct {
		Key, Title         string
		Place              string
		After              []string
		Count              int
		HandsMin, HandsMax int
		MinutesBy          map[string]float64
		Cautions           []struct{ Key string }
		Gone               bool
	}
	Figures []struct {
		Key   string
		Value float64
	}
	Clock struct {
		In, Doors, Done, Half, NineInTen string
		Odds, Musts                      float64
		Tasks                            []printedTask
		Over                             []struct{ Name, Until string }
	}
}

// overrun returns until when the plan says that somebody works too long, "" if it does not.
func (p *printedPlan) overrun(name string) (until string) {
	for _, over := range p.Clock.Over {
		if over.Name == name {
			until = over.Until
		}
	}
	return until
}

type printedTask struct {
	Key, Title, Place   string
	Start, End, StartBy string
	Hands               int
	People              []struct{ Name, From, To string }
	WaitsFor            []string
	Critical            float64
}

func clockMinute(t *testing.T, text string) int {
	t.Helper()
	at, err := time.Parse("2006-01-02T15:04", text)
	require.NoError(t, err)
	return int(at.Unix() / 60)
}

// TestPrintedPlansAreConsistent checks printed plans of the sample jobs, and of random changes to them, by the rules
// that a decorator would check by hand.
func TestPrintedPlansAreConsistent(t *testing.T) {
	seeds := 60
	if testing.Short() {
		seeds = 8
	}
	for _, name := range []string{"reading-room", "orchard-wedding"} {
		data, err := os.ReadFile(samples + name + ".json")
		require.NoError(t, err)
		changes, err := job.DecodeFile(data)
		require.NoError(t, err)
		j := job.Preview(changes)
		checkPrinted(t, name, j)
		for seed := range seeds / 2 {
			checkPrinted(t, fmt.Sprintf("%s, seed %d", name, seed), changedJob(j, uint64(seed)))
		}
	}
}

// changedJob randomly changes the crew's times, the equipment, where pieces are built and the length of the window.
func changedJob(j job.Job, seed uint64) job.Job {
	r := rand.New(rand.NewPCG(seed, 7))
	day := j.Brief.Date
	at := func(hour int) string { return fmt.Sprintf("%sT%02d:%02d", day, hour, 15*r.IntN(4)) }
	in := 6 + r.IntN(5)
	changes := []job.Change{job.Put("brief", "in", at(in)), job.Put("brief", "doors", at(in+1+r.IntN(4))),
		job.Put("override/clock/drive", "value", 10*r.IntN(9)), job.Put("override/clock/evenings", "value", 1+r.IntN(4)),
		job.Put("override/clock/pump-hands", "value", 1+r.IntN(3))}
	for _, p := range j.Pieces {
		changes = append(changes, job.Put("piece/"+p.ID, "built", []string{"home", "site"}[r.IntN(2)]),
			job.Put("piece/"+p.ID, "priority", []string{"must", "should", "could"}[r.IntN(3)]),
			job.Put("piece/"+p.ID, "ahead", r.IntN(12)))
		if r.IntN(4) == 0 {
			changes = append(changes, job.Put("piece/"+p.ID, "removed", true))
		}
	}
	for _, k := range j.Kit {
		if k.Kind == "pump" || k.Kind == "ladder" {
			changes = append(changes, job.Put("kit/"+k.ID, "count", 1+r.IntN(2)))
		}
	}
	for i := range r.IntN(3) {
		id := fmt.Sprintf("member/more%d", i)
		changes = append(changes, job.Put(id, "name", fmt.Sprintf("Helper %d", i)),
			job.Put(id, "skill", []string{"beginner", "practised"}[r.IntN(2)]), job.Put(id, "home", r.IntN(2) == 0))
		if r.IntN(2) == 0 {
			changes = append(changes, job.Put(id, "from", at(in+r.IntN(3))))
		}
		if r.IntN(2) == 0 {
			changes = append(changes, job.Put(id, "to", at(in+1+r.IntN(6))))
		}
		var again []job.Span
		if r.IntN(3) == 0 {
			again = append(again, job.Span{From: job.Moment(at(in + 7)), To: job.Moment(at(in + 8))})
		}
		if r.IntN(3) == 0 {
			again = append(again, job.Span{From: job.Moment(at(in - 20 - r.IntN(6))), To: job.Moment(at(in - 14))})
		}
		changes = append(changes, job.Put(id, "again", again))
	}
	if r.IntN(2) == 0 {
		changes = append(changes, job.Put("brief", "door_mm", 700+r.IntN(900)))
	}
	changes = append(changes, job.Put("added/own", "text", "Sign in with the porter"),
		job.Put("added/own", "list", "site"), job.Put("added/own", "minutes", 5+r.IntN(20)))
	return job.Try(j, changes)
}

func checkPrinted(t *testing.T, name string, j job.Job) {
	t.Run(name, func(t *testing.T) {
		p := plan.Make(j)
		c := forecast.New(j, p, 0, forecast.Budget{Schedules: 40, Runs: 200}, nil)
		if !c.Planned() {
			require.NotEmpty(t, c.Missing, "no plan, but no reason is given")
			return
		}
		text, err := json.Marshal(planJSON{p, clockPlanToJSON(c)})
		require.NoError(t, err)
		var got printedPlan
		require.NoError(t, json.Unmarshal(text, &got))
		h := holder{t: t, job: &j, got: &got, byKey: map[string]*printedTask{}, figures: map[string]float64{}}
		for i := range got.Clock.Tasks {
			task := &got.Clock.Tasks[i]
			require.NotContains(t, h.byKey, task.Key, "is in the plan twice")
			h.byKey[task.Key] = task
		}
		for _, f := range got.Figures {
			h.figures[f.Key] = f.Value
		}
		h.cards()
		h.places()
		h.people()
		h.things()
		h.words()
	})
}

// holder checks one printed plan against its job.
type holder struct {
	t       *testing.T
	job     *job.Job
	got     *printedPlan
	byKey   map[string]*printedTask
	figures map[string]float64
}

func (h *holder) minute(text string) int { return clockMinute(h.t, text) }

// cards checks that each card is in the plan once, starts after those it depends on, has enough hands but no more than
// fit, and lasts as long as its work takes with these hands.
func (h *holder) cards() {
	t := h.t
	skill := map[string]string{}
	for _, m := range h.job.Crew {
		skill[m.Name] = m.Skill
	}
	for _, card := range h.got.Cards {
		printed := h.byKey[card.Key]
		if printed == nil {
			assert.True(t, card.Gone || card.Place == "takedown", "%s is in no plan", card.Title)
			continue
		}
		for _, key := range card.After {
			if first := h.byKey[key]; first != nil {
				assert.GreaterOrEqual(t, h.minute(printed.Start), h.minute(first.End), "%s before %s is done", printed.Title,
					first.Title)
			}
		}
		fast, slow := card.MinutesBy["practised"], card.MinutesBy["beginner"]
		if fast == 0 {
			continue
		}
		least, most := 0.0, 0.0 // work done, with the worst crowding and with none
		for now := h.minute(printed.Start); now < h.minute(printed.End); now++ {
			hands, speed := 0, 0.0
			for _, who := range printed.People {
				if h.minute(who.From) <= now && now < h.minute(who.To) {
					hands++
					if skill[who.Name] == "beginner" {
						speed += fast / max(slow, fast)
					} else {
						speed++
					}
				}
			}
			assert.LessOrEqual(t, hands, max(card.HandsMin, card.HandsMax), "%s is crowded", printed.Title)
			if card.Count < 5 || card.HandsMin > 1 { // not shared among several people
				assert.GreaterOrEqual(t, hands, card.HandsMin, "%s has too few hands", printed.Title)
			}
			most += speed
			least += speed * max(0, 1-float64(max(0, hands-1))*2*h.figures["clock/crowding"]/100)
		}
		assert.GreaterOrEqual(t, most, fast*0.999, "%s: took less time than its work", printed.Title)
		assert.LessOrEqual(t, least, fast+float64(card.HandsMax)+1, "%s took more time than its work", printed.Title)
	}
}

// places checks the order of places: home on evenings and before driving off, then loading, the drive, the site once it
// is open, and the take-down after.
func (h *holder) places() {
	t := h.t
	in, doors, drive := h.minute(h.got.Clock.In), h.minute(h.got.Clock.Doors), int(h.figures["clock/drive"])
	assert.Equal(t, string(h.job.Brief.In), h.got.Clock.In)
	day := in - in%(24*60)
	begin, long := int(h.figures["clock/evening-hour"]*60), int(h.figures["clock/evening-minutes"])
	loaded := 0
	for _, task := range h.got.Clock.Tasks {
		start, end := h.minute(task.Start), h.minute(task.End)
		switch task.Place {
		case "home":
			if load := h.byKey["card/load"]; load != nil {
				assert.LessOrEqual(t, end, h.minute(load.Start), "%s after the car is loaded", task.Title)
			}
			for _, who := range task.People {
				from, to := h.minute(who.From), h.minute(who.To)
				evening := false
				if early := int(h.figures["clock/shop-evening"]); !strings.HasPrefix(task.Key, "card/make/") &&
					!strings.HasPrefix(task.Key, "card/join/") {
					evening = from >= day-early*24*60+begin && to <= day-early*24*60+begin+long
				}
				own := false
				for _, m := range h.job.Crew {
					for _, s := range m.Again {
						if m.Name == who.Name && h.minute(string(s.From)) < day {
							own, evening = true, evening && own || from >= h.minute(string(s.From)) && to <= h.minute(string(s.To))
						}
					}
				}
				for back := 1; back <= int(h.figures["clock/evenings"]) && !own; back++ {
					evening = evening ||
						from >= day-back*24*60+begin && to <= day-back*24*60+begin+long+20 // they may stay a little longer
				}
				assert.True(t, evening || from >= in-drive-int(h.figures["clock/morning"]), "%s works on %s from %s to %s",
					who.Name, task.Title, who.From, who.To)
			}
		case "load":
			loaded = max(loaded, end)
		case "site":
			assert.GreaterOrEqual(t, start, in, "%s before the venue is open", task.Title)
		case "takedown":
			assert.GreaterOrEqual(t, start, doors, "%s while the guests come in", task.Title)
			assert.GreaterOrEqual(t, task.Start, string(h.job.Brief.Down), task.Title)
		}
	}
	for _, task := range h.got.Clock.Tasks {
		if task.Place == "site" && loaded > 0 {
			assert.GreaterOrEqual(t, h.minute(task.Start), loaded+drive, "%s before the car can arrive", task.Title)
		}
	}
}

// people checks that nobody is on two cards at once, works before they come or, if there is time, works after they go.
func (h *holder) people() {
	t := h.t
	type spell struct {
		from, to int
		title    string
	}
	of := map[string][]spell{}
	for _, task := range h.got.Clock.Tasks {
		for _, who := range task.People {
			from, to := h.minute(who.From), h.minute(who.To)
			assert.True(t, h.minute(task.Start) <= from && from < to && to <= h.minute(task.End), "%s on %s", who.Name,
				task.Title)
			of[who.Name] = append(of[who.Name], spell{from, to, task.Title})
			for _, m := range h.job.Crew {
				if m.Name != who.Name {
					continue
				}
				site := task.Place == "site" || task.Place == "takedown"
				again := false
				for _, s := range m.Again {
					again = again || string(s.From) <= who.From && who.To <= string(s.To)
				}
				assert.True(t, site || m.Home || again, "%s does not help at home", m.Name)
				if again {
					continue
				}
				inTime := who.From < h.got.Clock.Doors // after the doors open, everybody helps to finish
				if m.From != "" && site && inTime {
					assert.GreaterOrEqual(t, who.From, string(m.From), "%s has not come yet: %s", m.Name, task.Title)
				}
				if m.To != "" && task.Place == "site" && inTime {
					stays := h.got.overrun(m.Name) // the plan says who stays on to finish
					assert.LessOrEqual(t, who.To, max(string(m.To), h.got.Clock.Doors, stays), "%s has left: %s",
						m.Name, task.Title)
					assert.Less(t, who.From, string(m.To), "%s has left: %s", m.Name, task.Title)
				}
			}
		}
	}
	for name, spells := range of {
		slices.SortFunc(spells, func(a, b spell) int { return a.from - b.from })
		for i := 1; i < len(spells); i++ {
			assert.GreaterOrEqual(t, spells[i].from, spells[i-1].to, "%s is on %s and on %s", name, spells[i-1].title,
				spells[i].title)
		}
	}
}

// things checks that no more of a resource is in use than exists.
func (h *holder) things() {
	fills := func(i int, gas string) bool {
		family := strings.Split(h.got.Cards[i].Key, "/")[1]
		piece, _ := h.job.Piece(h.got.Cards[i].Key[strings.LastIndexByte(h.got.Cards[i].Key, '/')+1:])
		return (family == "make" || family == "ahead" || family == "accents") && (piece.Gas == "helium") == (gas == "helium")
	}
	of := func(i int, families ...string) bool {
		return slices.Contains(families, strings.Split(h.got.Cards[i].Key, "/")[1])
	}
	for thing, uses := range map[string]func(i int) bool{
		"pump":     func(i int) bool { return fills(i, "air") },
		"cylinder": func(i int) bool { return fills(i, "helium") },
		"car":      func(i int) bool { return of(i, "load", "unload", "trip", "reload") },
		"doorway": func(i int) bool {
			return h.job.Brief.DoorMM > 0 && h.job.Brief.DoorMM < h.figures["hands/doorway"] &&
				of(i, "carry", "unload", "reload")
		},
		"ladder": func(i int) bool {
			for _, care := range h.got.Cards[i].Cautions {
				if care.Key == "ladder" && h.got.Cards[i].Place != "home" {
					return true
				}
			}
			return false
		},
	} {
		there := 0
		for _, k := range h.job.Kit {
			if k.Kind == thing {
				there += k.Count
			}
		}
		inUse := map[int]int{}
		for i := range h.got.Cards {
			task := h.byKey[h.got.Cards[i].Key]
			if task == nil || !uses(i) {
				continue
			}
			for now := h.minute(task.Start); now < h.minute(task.End); now++ {
				hands := 0
				for _, who := range task.People {
					if h.minute(who.From) <= now && now < h.minute(who.To) {
						hands++
					}
				}
				switch serves := int(h.figures["clock/pump-hands"]); {
				case hands == 0:
				case thing == "pump" || thing == "cylinder":
					inUse[now] += (hands + serves - 1) / serves
				default:
					inUse[now]++
				}
			}
		}
		for now, n := range inUse {
			require.LessOrEqual(h.t, n, max(1, there), "%ss in use at %s", thing, time.Unix(int64(now)*60, 0).UTC())
		}
	}
}

// words checks that the sentences agree with the numbers.
func (h *holder) words() {
	t, c := h.t, &h.got.Clock
	done, titles := "", map[string]bool{}
	for _, task := range c.Tasks {
		titles[task.Title] = true
		if task.Place != "takedown" {
			done = max(done, task.End)
		}
	}
	assert.Equal(t, done, c.Done)
	assert.LessOrEqual(t, c.Half, c.NineInTen)
	assert.GreaterOrEqual(t, c.Musts, c.Odds, "the must-haves are part of everything")
	assert.Equal(t, c.Odds >= 0.9, c.NineInTen <= c.Doors, "odds and safe time must agree: %v %v", c.Odds, c.NineInTen)
	for _, task := range c.Tasks {
		for _, title := range task.WaitsFor {
			assert.True(t, titles[title], "%s waits for %s, which is in no plan", task.Title, title)
		}
		if task.StartBy != "" && c.Done <= c.Doors {
			assert.GreaterOrEqual(t, task.StartBy, task.Start, "%s is late in a plan that is on time", task.Title)
		}
		assert.True(t, task.Critical >= 0 && task.Critical <= 1)
	}
}
