package plan_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/crew"
)

// later is a job after somebody did something at a local time (the jobs of these tests take their venue's time for UTC).
func later(t testing.TB, j job.Job, who string, minute int64, changes ...job.Change) job.Job {
	t.Helper()
	state := j.State.Clone()
	for i, c := range changes {
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		id := fmt.Sprintf("%s-%d-%d-%d", who, minute, i, len(state.Registers)+len(state.Tally(c.Entity).Entries))
		state.Apply(job.Rec{Op: job.Op{ID: id, Device: who, Number: uint64(minute)*100 + uint64(i), Version: job.Version, Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta},
			Effective: minute*60_000 + int64(i), Seq: 1, Author: job.Author{Role: job.Helper, Name: who}})
	}
	return job.Read(j.ID, state, j.Private)
}

func clockOf(t testing.TB, j job.Job, now int64, kept *plan.Clock) *plan.Clock {
	t.Helper()
	return plan.NewClock(j, plan.Make(j), now, plan.Usual, kept)
}

func TestAllTickedIsDone(t *testing.T) {
	j := readJob(t, "reading-room")
	now := at(t, j.Brief.In)
	var ticks []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place != plan.TakeDown {
			ticks = append(ticks, job.Put(c.Key, "done", true))
		}
	}
	j = later(t, j, "Ines", now, ticks...)
	c := clockOf(t, j, now+10, nil)
	assert.Equal(t, "done", c.Verdict)
	assert.Equal(t, "All is done; doors 11:30.", c.Sentence)
	assert.Equal(t, 1.0, c.Odds)
	p := plan.Make(j)
	assert.Empty(t, c.Fixes(j, &p, now))
	assert.Empty(t, c.Cuts(&p))
}

// pressing holds that every fix gives what it offers: the job with its changes, planned anew, and does better than before.
func pressing(t *testing.T, j job.Job) (fixes []plan.Fix) {
	t.Helper()
	p, now := plan.Make(j), longBefore(t, j)
	before := clockOf(t, j, now, nil)
	fixes = before.Fixes(j, &p, now)
	for _, fix := range fixes {
		again := before.FindFix(j, &p, fix.Key)
		require.NotNil(t, again, fix.Key)
		assert.Equal(t, fix.Changes(), again.Changes(), "what is offered is what a press does")
		for _, c := range again.Changes() {
			require.NoError(t, job.CheckChange(c))
		}
		then := job.Try(j, again.Changes())
		for _, kept := range []*plan.Clock{nil, before} { // as the command line plans it, and as the page does
			after := clockOf(t, then, now, kept)
			assert.Greater(t, after.Odds, before.Odds, "%s: %s, was %s", fix.Key, after.Sentence, before.Sentence)
			assert.GreaterOrEqual(t, after.Odds, fix.Clock.Odds-0.03, "%s: the odds it was offered with", fix.Key)
		}
		assert.Equal(t, fix.Reaches, fix.Clock.Odds >= plan.Target, fix.Key)
		for _, lever := range fix.Levers {
			assert.NotEmpty(t, lever.Cost, lever.Key)
			assert.True(t, lever.Minutes > 0 || lever.Money > 0 || lever.Look > 0 || strings.HasPrefix(lever.Key, "sooner/"), "it costs time, money or look: %s", lever.Key)
		}
		for _, half := range fixes {
			assert.False(t, half.Reaches && half.Key != fix.Key && strings.HasPrefix("+"+fix.Key+"+", "+"+half.Key+"+"), "%s is enough, so %s is not offered", half.Key, fix.Key)
		}
	}
	return fixes
}

func TestAPressedFixGivesTheOddsItWasOfferedWith(t *testing.T) {
	for _, name := range goldenJobs() {
		t.Run(name, func(t *testing.T) {
			j := readJob(t, name)
			fixes := pressing(t, j)
			require.NotEmpty(t, fixes)
			assert.True(t, fixes[0].Reaches, "one of them reaches nine in ten")
			hands := false
			for _, fix := range fixes {
				hands = hands || strings.HasPrefix(fix.Key, "hands/")
			}
			assert.True(t, hands, "more hands are among them")
			p := plan.Make(j)
			c := clockOf(t, j, longBefore(t, j), nil)
			assert.Nil(t, c.FindFix(j, &p, "hands/0+wishes"))
			assert.Nil(t, c.FindFix(j, &p, ""))
		})
	}
	offered, jobs := 0, 20
	if testing.Short() { // the race detector and wasm take ten times as long
		jobs = 4
	}
	for seed := range jobs {
		t.Run(fmt.Sprint("job ", seed), func(t *testing.T) { offered += len(pressing(t, anyTightJob(t, uint64(seed)))) })
	}
	assert.Greater(t, offered, jobs, "most tight jobs have a way out")
}

// anyTightJob is the reading room with some of its pieces, other places to build them, other hands and less time.
func anyTightJob(t *testing.T, seed uint64) job.Job {
	t.Helper()
	j := readJob(t, "reading-room")
	r := rand.New(rand.NewPCG(seed, 4))
	var changes []job.Change
	for _, piece := range j.Pieces {
		entity := "piece/" + piece.ID
		switch r.IntN(4) {
		case 0:
			changes = append(changes, job.Put(entity, "removed", true))
		case 1:
			changes = append(changes, job.Put(entity, "built", "site"))
		case 2:
			changes = append(changes, job.Put(entity, "built", "home"), job.Put(entity, "priority", "could"))
		}
	}
	for _, member := range j.Crew {
		changes = append(changes, job.Put("member/"+member.ID, "skill", []string{"beginner", "practised"}[r.IntN(2)]))
	}
	in := at(t, j.Brief.In) + int64(15*r.IntN(9))
	changes = append(changes, job.Put("brief", "in", moment(in)))
	return later(t, j, "Dora", longBefore(t, j), changes...)
}

// moment writes a local minute as a field does.
func moment(minute int64) string { return time.Unix(minute*60, 0).UTC().Format("2006-01-02T15:04") }

// Ten pieces in two and a half hours for two: one change alone does not bring the odds above 0.
func TestFixesAreFoundWhereTheOddsAreNone(t *testing.T) {
	j := readJob(t, "reading-room")
	j = later(t, j, "Dora", longBefore(t, j), job.Put("brief", "in", "2027-05-08T09:00"), job.Put("member/bea", "removed", true), job.Put("piece/window", "built", "site"), job.Put("piece/desk", "built", "site"))
	before := clockOf(t, j, longBefore(t, j), nil)
	require.Less(t, before.Odds, 0.01)
	fixes := pressing(t, j)
	require.NotEmpty(t, fixes)
	assert.True(t, fixes[0].Reaches, "%s: %.2f", fixes[0].Key, fixes[0].Clock.Odds)
	assert.Greater(t, len(fixes[0].Levers), 1, fixes[0].Key)
}

// A cut line goes on until it is as good as certain, never over a must, and says what leaving out really gives.
func TestCutLineKeepsWhatMustBeThere(t *testing.T) {
	short := readJob(t, "reading-room")
	for name, j := range map[string]job.Job{"as it is": short, "two hours less": later(t, short, "Dora", longBefore(t, short), job.Put("brief", "in", "2027-05-08T09:00"))} {
		t.Run(name, func(t *testing.T) {
			p := plan.Make(j)
			c := clockOf(t, j, longBefore(t, j), nil)
			cuts := c.Cuts(&p)
			require.NotEmpty(t, cuts)
			should, odds, left := false, 0.0, map[string]string{}
			for _, piece := range j.Pieces {
				left[piece.ID] = piece.Priority
			}
			then, loose := j, false
			for i, cut := range cuts {
				assert.False(t, should && cut.Priority == "could", "what could be there goes before what should: %s", cut.Title)
				should = should || cut.Priority == "should"
				assert.GreaterOrEqual(t, cut.Odds, odds, "leaving out more never makes it later: %s", cut.Title)
				odds = cut.Odds
				assert.True(t, odds < 0.995 || i == len(cuts)-1, "it ends where it is certain")
				for _, key := range cut.Tasks {
					card := cardsByKey(p)[key]
					assert.NotEqual(t, "must", card.Priority, key)
					assert.Equal(t, cut.Piece, card.Piece, "whole pieces go, so that no half one is left: %s", key)
				}
				delete(left, cut.Piece)
				if loose = loose || cut.Piece == ""; loose {
					continue
				}
				then = later(t, then, "Dora", longBefore(t, j), job.Put("piece/"+cut.Piece, "removed", true))
				assert.GreaterOrEqual(t, clockOf(t, then, longBefore(t, j), nil).Odds, cut.Odds-0.05, "left out and planned anew: %s", cut.Title)
				assert.InDelta(t, clockOf(t, then, longBefore(t, j), nil).Odds, cut.Odds, 0.15, "left out and planned anew: %s", cut.Title)
			}
			for id, priority := range left {
				assert.True(t, priority == "must" || odds >= 0.995, id)
			}
		})
	}
}

// A sign that must hang keeps the frame of a piece that could be left out.
func TestCutLineKeepsWhatMustsNeed(t *testing.T) {
	j := readJob(t, "reading-room")
	j = later(t, j, "Dora", longBefore(t, j), job.Put("piece/door", "priority", "could"), job.Put("piece/ring", "frame", ""))
	p := plan.Make(j)
	cuts := clockOf(t, j, longBefore(t, j), nil).Cuts(&p)
	require.NotEmpty(t, cuts)
	for _, cut := range cuts {
		assert.NotContains(t, cut.Tasks, "card/frame/stand", "the cloth and the sign hang on it")
	}
}

func cardsByKey(p plan.Plan) map[string]plan.Card {
	cards := map[string]plan.Card{}
	for _, c := range p.Cards {
		cards[c.Key] = c
	}
	return cards
}

func TestPlannedTimesHold(t *testing.T) {
	j := readJob(t, "reading-room")
	p := plan.Make(j)
	c := clockOf(t, j, longBefore(t, j), nil)
	cards, busy := cardsByKey(p), map[int][]plan.ClockSpell{}
	for _, task := range c.Tasks {
		card := cards[task.Key]
		for _, before := range card.After {
			if first, there := c.Task(before); there {
				assert.GreaterOrEqual(t, task.Start, first.End, "%s comes after %s", task.Title, first.Title)
			}
		}
		if card.Place == plan.Site {
			assert.GreaterOrEqual(t, task.Start, c.In, "nobody is let in sooner: %s", task.Title)
		}
		if card.HandsMin > 1 && len(task.Spells) > 0 {
			assert.GreaterOrEqual(t, len(c.Names(&task)), card.HandsMin, task.Title)
		}
		if task.StartBy != plan.NoTime && c.Finish <= c.Doors {
			assert.GreaterOrEqual(t, task.StartBy, task.Start, "a plan that is in time begins everything in time: %s", task.Title)
		}
		for _, s := range task.Spells {
			for _, other := range busy[s.Person] {
				assert.True(t, s.To <= other.From || s.From >= other.To, "%s does one thing at a time", c.People[s.Person].Name)
			}
			busy[s.Person] = append(busy[s.Person], s)
			if c.People[s.Person].Name == "Bea" {
				assert.GreaterOrEqual(t, c.At(s.From), job.Moment("2027-05-08T08:00"), "Bea comes at eight")
			}
		}
	}
	assert.Equal(t, writeClock(c), writeClock(clockOf(t, j, longBefore(t, j), nil)), "the same job gives the same clock")
}

func TestHonestWithoutTimesAndHands(t *testing.T) {
	window := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T11:00")}
	rows := []struct {
		name    string
		job     job.Job
		verdict string
		says    string
	}{
		{"nothing known", made(), "unknown", "Say from when the venue lets you in"},
		{"no doors", garland(3048, window[0]), "unknown", "Say when the doors open"},
		{"no piece", made(window...), "unknown", "add a piece"},
		{"nobody named, and two are needed", garland(3048, window...), "unknown", "needs 2 people at once; the crew has 1 on site"},
		{"doors before let in", garland(3048, window[1], job.Put("brief", "in", "2027-05-08T12:00")), "unknown", "must open after"},
		{"the event is over", garland(3048, append(window, job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Bea"))...), "past", "The doors have been open since 11:00"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			now := int64(0)
			if row.verdict == "past" {
				now = at(t, "2027-05-08T17:00")
			}
			c := clockOf(t, row.job, now, nil)
			assert.Equal(t, row.verdict, c.Verdict)
			assert.Contains(t, c.Sentence+strings.Join(c.Missing, " "), row.says)
			assert.False(t, c.Planned())
		})
	}
}

func TestTheClockFollowsTheDay(t *testing.T) {
	j := readJob(t, "reading-room")
	morning := at(t, j.Brief.In)
	var packed []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place == plan.Home || c.Place == plan.Load {
			packed = append(packed, job.Put(c.Key, "done", true))
		}
	}
	j = later(t, j, "Ines", morning-600, packed...)
	first := clockOf(t, j, morning, nil)
	require.True(t, first.Planned())
	assert.Greater(t, first.Odds, 0.3)

	idle := clockOf(t, j, morning+60, first)
	assert.Less(t, idle.Odds, first.Odds-0.2, "an hour in which nothing is ticked costs")
	assert.Greater(t, idle.Ninety, first.Ninety+20)

	busy := j // two phones tick what was planned, when it was planned
	for _, task := range first.Tasks {
		if end := int64(task.End - first.In); task.Place == plan.Site && end <= 60 {
			busy = later(t, busy, []string{"Ines", "Tomasz"}[len(task.Key)%2], morning+end, job.Put(task.Key, "done", true))
		}
	}
	on := clockOf(t, busy, morning+60, first)
	assert.Greater(t, on.Odds, idle.Odds+0.15)
	assert.InDelta(t, first.Ninety, on.Ninety, 25, "as planned so far: about as before")
	assert.Less(t, len(on.Tasks), len(first.Tasks))
}

// loaded is the demo job on its day with everything ticked that is done before the crew is on site.
func loaded(t *testing.T) (j job.Job, in int64) {
	t.Helper()
	j = readJob(t, "reading-room")
	in = at(t, j.Brief.In)
	var packed []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place == plan.Home || c.Place == plan.Load && c.Key != "card/load" {
			packed = append(packed, job.Put(c.Key, "done", true))
		}
	}
	return later(t, j, "Ines", in-600, packed...), in
}

func TestWhatWasTakenIsAsFarAsTheTimeSinceSays(t *testing.T) {
	j, in := loaded(t)
	j = later(t, j, "Ines", in-60, job.Put("card/load", "done", true))
	j = later(t, j, "Ines", in, job.Put("card/unload", "taken", "Ines"), job.Put("card/look", "done", true))
	idle, _ := clockOf(t, later(t, j, "Ines", in+14, job.Put("card/unload", "taken", "")), in+15, nil).Task("card/unload")
	begun, there := clockOf(t, j, in+15, nil).Task("card/unload")
	require.True(t, there)
	assert.LessOrEqual(t, begun.End, idle.End-5, "fifteen minutes of one pair of hands are five of three")

	two := later(t, j, "Ines", in-5, job.Put("card/look", "taken", "Ines"))
	two = later(t, two, "Ines", in+1, job.Put("card/look", "done", false))
	waiting, _ := clockOf(t, two, in+15, nil).Task("card/unload")
	assert.Greater(t, waiting.End-waiting.Start, begun.End-begun.Start, "who took two is on the first of them")

	away, _ := loaded(t) // the same day, told in a zone two hours ahead of UTC
	away = later(t, away, "Ines", in-120-60, job.Put("card/load", "done", true))
	away = later(t, away, "Ines", in-120, job.Put("card/unload", "taken", "Ines"), job.Put("card/look", "done", true))
	atHand := func(j job.Job, ahead int64) *plan.ClockTask {
		var clocks plan.Clocks
		p := plan.Make(j)
		task, there := clocks.Clock(j, &p, in+15, ahead, 0, "").Task("card/unload")
		require.True(t, there)
		return task
	}
	assert.Equal(t, atHand(j, 0).End, atHand(away, 120).End, "the time since is the same wherever the clock stands")
}

func TestNobodyIsOnSiteWhileTheCarIsOnItsWay(t *testing.T) {
	j, in := loaded(t)
	j = later(t, j, "Ines", in+15, job.Put("card/load", "done", true))
	c := clockOf(t, j, in+15, nil)
	require.Positive(t, c.Drive)
	for _, task := range c.Tasks {
		if task.Place == plan.Site {
			assert.GreaterOrEqual(t, task.Start, c.In+15+c.Drive, task.Title)
		}
	}
	j = later(t, j, "Ines", in+16, job.Put("card/look", "done", true))
	first := clockOf(t, j, in+20, nil)
	assert.Equal(t, first.In+20, first.ByStart()[0].Start, "once something is ticked there, they have arrived")
}

// Two equal garlands, one of them must be there, and a car that takes one and a bit.
func TestASecondTripTakesOneAwayAndWhatIsInItWaits(t *testing.T) {
	window := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T14:00"),
		job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Bea"), job.Put("member/c", "name", "Olek"),
		job.Put("kit/van", "kind", "car"), job.Put("kit/van", "name", "Van"), job.Put("kit/van", "count", 1), job.Put("kit/van", "litres", 2600)}
	for i, id := range []string{"last", "first"} {
		window = append(window, piece(id, "garland", map[string]any{"length_mm": 6000, "recipe": "2x11@9.5", "built": "home", "accents": 0, "order": i,
			"priority": []string{"should", "must"}[i], "colours": shares("coral", 1.0)})...)
	}
	j := made(window...)
	p, trip := plan.Make(j), "card/trip/2"
	require.Contains(t, cardsByKey(p), trip)
	require.NotContains(t, cardsByKey(p), "card/trip/3")
	assert.Contains(t, cardsByKey(p)["card/fix/last"].After, trip)
	assert.NotContains(t, cardsByKey(p)["card/fix/first"].After, trip, "what must be there goes first")
	c := clockOf(t, j, longBefore(t, j), nil)
	task, there := c.Task(trip)
	require.True(t, there)
	assert.Len(t, c.Names(task), 1, "one drives")
	assert.GreaterOrEqual(t, task.End-task.Start, 2*c.Drive+2*15)
	last, _ := c.Task("card/fix/last")
	assert.GreaterOrEqual(t, last.Start, task.End)

	two := job.Try(j, []job.Change{job.Put("kit/van", "count", 2)})
	assert.NotContains(t, cardsByKey(plan.Make(two)), trip, "a second car saves it")
	assert.Greater(t, c.Finish, clockOf(t, two, longBefore(t, j), nil).Finish)
	far := job.Try(j, []job.Change{job.Put("override/clock/drive", "value", 60)})
	assert.GreaterOrEqual(t, clockOf(t, far, longBefore(t, j), nil).Finish, c.Finish+60, "the night does not swallow it")
}

// Balloons lose air: what is made at home is made on the latest evenings that hold it, and no card is left with a few
// minutes for the next evening.
func TestHomeWorkIsOnTheLatestEveningsThatHoldIt(t *testing.T) {
	demo := readJob(t, "reading-room")
	rows := []struct {
		name     string
		change   []job.Change
		evenings []string
	}{
		{"as it is, two of three", nil, []string{"2027-05-06", "2027-05-07"}},
		{"with seven to choose from", []job.Change{job.Put("override/clock/evenings", "value", 7)}, []string{"2027-05-06", "2027-05-07"}},
		{"short evenings", []job.Change{job.Put("override/clock/evening-minutes", "value", 120)}, []string{"2027-05-05", "2027-05-06", "2027-05-07"}},
		{"long evenings", []job.Change{job.Put("override/clock/evening-minutes", "value", 400)}, []string{"2027-05-07"}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			j := job.Try(demo, row.change)
			c := clockOf(t, j, longBefore(t, j), nil)
			days := map[string]bool{}
			for _, task := range c.Tasks {
				if task.Place != plan.Home && task.Place != plan.Load {
					continue
				}
				days[string(c.At(task.Start)[:10])] = true
				ends := c.At(task.End)
				assert.True(t, c.At(task.Start)[:10] == ends[:10] || ends[11:] > "18:50", "%s is left with minutes for another evening: %s to %s", task.Title, c.At(task.Start), ends)
			}
			var list []string
			for day := range days {
				list = append(list, day)
			}
			assert.ElementsMatch(t, row.evenings, list)
		})
	}
}

func TestAfterTheDoorsItSaysHowLate(t *testing.T) {
	j, in := loaded(t)
	j = later(t, j, "Ines", in-60, job.Put("card/load", "done", true))
	now := at(t, j.Brief.Doors) + 10
	c := clockOf(t, j, now, nil)
	assert.Equal(t, "past", c.Verdict)
	require.True(t, c.Planned())
	assert.Zero(t, c.Odds)
	assert.Greater(t, c.Half, c.Doors+10)
	assert.Regexp(t, `^The doors have been open since 11:30; \d+ cards left: done most likely at \d\d:\d\d, with 9 in 10 odds at \d\d:\d\d\.$`, c.Sentence)
	assert.NotEmpty(t, c.Tasks)
}

func TestSaysAChangeOnlyWhenItMatters(t *testing.T) {
	j := readJob(t, "reading-room")
	var clocks plan.Clocks
	p, now := plan.Make(j), longBefore(t, j)
	quick := clocks.Clock(j, &p, now, 0, plan.MostBudget, "")
	require.True(t, quick.Planned())
	better := clocks.Clock(j, &p, now, 0, plan.MostBudget, "")
	assert.Greater(t, better.Runs, quick.Runs, "it is refined when asked again")
	assert.True(t, clocks.Behind())
	best := clocks.Clock(j, &p, now, 0, plan.MostBudget, "")
	assert.Same(t, best, clocks.Clock(j, &p, now+3, 0, plan.MostBudget, ""), "and kept")
	assert.Same(t, best, clocks.Clock(j, &p, now, 0, 0, ""), "for pages that want less, too")
	assert.Empty(t, best.Change)
	_ = clocks.Behind()
	clocks.Clock(j, &p, now, 0, plan.MostBudget, "")
	assert.False(t, clocks.Behind(), "there is no more to it")

	counted := later(t, j, "Ines", now, job.Count("card/make/door", 1))
	p2 := plan.Make(counted)
	same := clocks.Clock(counted, &p2, now, 0, 0, "")
	assert.NotSame(t, best, same)
	assert.Equal(t, best.Sentence, same.Sentence, "one cluster changes nothing that matters")
	assert.Empty(t, same.Change)

	gone := job.Try(counted, []job.Change{job.Put("piece/shelfwall", "removed", true)})
	p3 := plan.Make(gone)
	less := clocks.Clock(gone, &p3, now, 0, 1, "")
	assert.NotEqual(t, best.Sentence, less.Sentence)
	assert.Contains(t, less.Change, "sooner than it looked before")
}

// The demo job with doors moved until its odds lie just on either side of 9 and of 5 in 10. Where being let in a minute
// sooner is no change that matters it leaves verdict, sentence and figures as they were.
func TestItDoesNotFlapWhereTheVerdictTurns(t *testing.T) {
	j := readJob(t, "reading-room")
	now, doors := longBefore(t, j), at(t, j.Brief.Doors)
	moved := func(j job.Job, field string, minute int64) job.Job {
		c := job.CalendarAt(minute)
		return job.Try(j, []job.Change{job.Put("brief", field, fmt.Sprintf("%04d-%02d-%02dT%02d:%02d", c.Year, c.Month, c.Day, c.Hour, c.Minute))})
	}
	turns := map[string]bool{}
	for minutes := int64(-20); minutes < 60; minutes++ {
		var clocks plan.Clocks
		one := moved(j, "doors", doors+minutes)
		next := moved(one, "in", at(t, j.Brief.In)-1)
		p, p2 := plan.Make(one), plan.Make(next)
		first := clocks.Clock(one, &p, now, 0, 0, "")
		said := *first
		alone := new(plan.Clocks).Clock(next, &p2, now, 0, 0, "")
		second := clocks.Clock(next, &p2, now, 0, 0, "")
		turned := alone.Verdict != said.Verdict
		if second.Change != "" {
			continue // it matters
		}
		assert.Equal(t, said.Verdict, second.Verdict, minutes)
		assert.Equal(t, said.Sentence, second.Sentence)
		assert.Equal(t, []any{said.Odds, said.Half, said.Ninety}, []any{second.Odds, second.Half, second.Ninety}, "the figures beside a sentence are those of the sentence")
		if turned {
			turns[said.Verdict+" "+alone.Verdict] = true
		}
		further := clocks.Clock(next, &p2, now, 0, 1, "")
		assert.True(t, further.Change != "" || further.Sentence == said.Sentence, "nor does looking longer change it without a word")
	}
	moreDoors := moved(j, "doors", doors+2)
	var clocks plan.Clocks
	p, p2 := plan.Make(j), plan.Make(moreDoors)
	clocks.Clock(j, &p, now, 0, 0, "")
	assert.Contains(t, clocks.Clock(moreDoors, &p2, now, 0, 0, "").Sentence, "doors 11:32", "a time that is told is the time that holds")
	assert.Contains(t, turns, "late unsure")
	assert.Contains(t, turns, "unsure sure")
}

func TestWhatIfMoreHandsAndAnEarlierStart(t *testing.T) {
	j := readJob(t, "reading-room")
	now := longBefore(t, j)
	before := clockOf(t, j, now, nil)
	for _, tried := range []job.Job{plan.WhatIf(j, 1, 0), plan.WhatIf(j, 0, 60), plan.WhatIf(j, 2, 60)} {
		p := plan.Make(j)
		assert.Greater(t, plan.NewClock(tried, p, now, plan.Usual, nil).Odds, before.Odds)
	}
	assert.Len(t, j.Crew, 3, "what was handed in stays as it was")
	assert.Equal(t, writeClock(before), writeClock(plan.NewClock(plan.WhatIf(j, 0, 0), plan.Make(j), now, plan.Usual, nil)))
}

// Tomasz counts a cluster every nine minutes, which is far slower than the table says.
func TestRatesOfOnesOwn(t *testing.T) {
	j := readJob(t, "reading-room")
	start := at(t, "2027-05-05T18:30")
	j = later(t, j, "Ines", start, job.Put("card/shop", "done", true))
	for i := range int64(12) {
		j = later(t, j, "Tomasz", start+9*i, job.Count("card/make/door", 1))
	}
	p := plan.Make(j)
	c := clockOf(t, j, start+120, nil)
	list := c.Took(&j, &p)
	require.Len(t, list, 1)
	took := list[0]
	assert.Equal(t, "fill", took.Kind)
	assert.False(t, took.Practised, "Tomasz is a beginner")
	assert.InDelta(t, 12*9, took.Actual, 1e-6, "eleven pauses of nine minutes stand for twelve clusters")
	assert.Greater(t, took.Actual, took.Planned*1.3)
	assert.Greater(t, took.Factor, 1.03)
	assert.Less(t, took.Factor, took.Actual/took.Planned, "shrunk towards the table")

	changes := plan.TakeOver(&j, &p, list)
	require.NotEmpty(t, changes)
	for _, change := range changes {
		require.NoError(t, job.CheckChange(change))
		assert.True(t, strings.HasSuffix(change.Entity, "/beginner"), "only of those hands: %s", change.Entity)
	}
	after := job.Try(j, changes)
	p2 := plan.Make(after)
	assert.Greater(t, cardsByKey(p2)["card/make/desk"].MinutesBy["beginner"], cardsByKey(p)["card/make/desk"].MinutesBy["beginner"]*1.03)
	assert.Equal(t, cardsByKey(p)["card/make/desk"].MinutesBy["practised"], cardsByKey(p2)["card/make/desk"].MinutesBy["practised"])
	again := clockOf(t, after, start+120, nil).Took(&after, &p2)
	require.Len(t, again, 1)
	assert.True(t, again[0].Used)
	assert.Empty(t, plan.TakeOver(&after, &p2, again), "one job does not count twice")
}

// Every row of the time table belongs to exactly one kind of work, or nothing would be learnt of it.
func TestEveryRowOfTheTimeTableIsLearnt(t *testing.T) {
	for _, f := range plan.Figures() {
		if !strings.HasPrefix(f.Key, "minutes/") {
			continue
		}
		kinds := 0
		for _, kind := range plan.KindsOfWork() {
			took := plan.Took{Kind: kind, Practised: strings.HasSuffix(f.Key, "/practised")}
			if took.Covers(f.Key) {
				kinds++
			}
		}
		assert.Equal(t, 1, kinds, f.Key)
	}
}

func TestTenthsAreNeverBetterThanTheOdds(t *testing.T) {
	assert.Equal(t, "8 in 10", plan.Tenths(0.899))
	assert.Equal(t, "9 in 10", plan.Tenths(0.9))
	assert.Equal(t, "less than 1 in 10", plan.Tenths(0.099))
	assert.Equal(t, "better than 9 in 10", plan.Tenths(0.97))
	assert.Equal(t, "as good as certain", plan.Tenths(1))
	assert.True(t, crew.Matters(crew.Forecast{Done: 0.8}, crew.Forecast{Done: 0.7}))
}
