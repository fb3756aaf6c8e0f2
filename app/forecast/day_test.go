package forecast_test

import (
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan"
	"garlandry/app/plan/task"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

func TestTheForecastFollowsTheDay(t *testing.T) {
	t.Parallel()
	j := readJob(t, "reading-room")
	morning := at(t, j.Brief.In)
	var packed []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place == task.Home || c.Place == task.Load {
			packed = append(packed, job.Put(c.Key, "done", true))
		}
	}
	j = later(t, j, "Ines", morning-600, packed...)
	first := clockOf(t, j, morning, nil)
	require.True(t, first.Planned())
	assert.Greater(t, first.Odds, 0.3)

	idle := clockOf(t, j, morning+60, first)
	assert.Less(t, idle.Odds, first.Odds-0.2, "an hour without a tick lowers the odds")
	assert.Greater(t, idle.Ninety, first.Ninety+20)

	busy := j // two phones tick what was planned, when it was planned
	for _, entry := range first.Tasks {
		if end := int64(entry.End - first.In); entry.Place == task.Site && end <= 60 {
			busy = later(t, busy, []string{"Ines", "Tomasz"}[len(entry.Key)%2], morning+end, job.Put(entry.Key, "done", true))
		}
	}
	on := clockOf(t, busy, morning+60, first)
	assert.Greater(t, on.Odds, idle.Odds+0.15)
	assert.InDelta(t, first.Ninety, on.Ninety, 25, "work as planned keeps the forecast")
	assert.Less(t, len(on.Tasks), len(first.Tasks))
}

// loaded returns the demo job on its day, with all work before the venue ticked except loading.
func loaded(t *testing.T) (j job.Job, in int64) {
	t.Helper()
	j = readJob(t, "reading-room")
	in = at(t, j.Brief.In)
	var packed []job.Change
	for _, c := range plan.Make(j).Cards {
		if c.Place == task.Home || c.Place == task.Load && c.Key != "card/load" {
			packed = append(packed, job.Put(c.Key, "done", true))
		}
	}
	return later(t, j, "Ines", in-600, packed...), in
}

func TestTimeSinceTakingACardCountsAsWork(t *testing.T) {
	t.Parallel()
	j, in := loaded(t)
	j = later(t, j, "Ines", in-60, job.Put("card/load", "done", true))
	j = later(t, j, "Ines", in, job.Put("card/unload", "taken", "Ines"), job.Put("card/look", "done", true))
	idle, _ := clockOf(t, later(t, j, "Ines", in+14, job.Put("card/unload", "taken", "")), in+15, nil).Task("card/unload")
	begun, there := clockOf(t, j, in+15, nil).Task("card/unload")
	require.True(t, there)
	assert.LessOrEqual(t, begun.End, idle.End-5, "fifteen minutes of one person save three people five")

	two := later(t, j, "Ines", in-5, job.Put("card/look", "taken", "Ines"))
	two = later(t, two, "Ines", in+1, job.Put("card/look", "done", false))
	waiting, _ := clockOf(t, two, in+15, nil).Task("card/unload")
	assert.Greater(t, waiting.End-waiting.Start, begun.End-begun.Start, "a person who took two cards works on the first")

	away, _ := loaded(t) // the same day in a zone two hours ahead of UTC
	away = later(t, away, "Ines", in-120-60, job.Put("card/load", "done", true))
	away = later(t, away, "Ines", in-120, job.Put("card/unload", "taken", "Ines"), job.Put("card/look", "done", true))
	atHand := func(j job.Job, ahead int64) *forecast.Task {
		var clocks forecast.Cache
		p := plan.Make(j)
		entry, there := clocks.Forecast(j, &p, in+15, ahead, "").Task("card/unload")
		require.True(t, there)
		return entry
	}
	assert.Equal(t, atHand(j, 0).End, atHand(away, 120).End, "the elapsed time is the same in every zone")
}

func TestNobodyIsOnSiteDuringTheDrive(t *testing.T) {
	j, in := loaded(t)
	j = later(t, j, "Ines", in+15, job.Put("card/load", "done", true))
	c := clockOf(t, j, in+15, nil)
	require.Positive(t, c.Drive)
	for _, entry := range c.Tasks {
		if entry.Place == task.Site {
			assert.GreaterOrEqual(t, entry.Start, c.In+15+c.Drive, entry.Title)
		}
	}
	j = later(t, j, "Ines", in+16, job.Put("card/look", "done", true))
	first := clockOf(t, j, in+20, nil)
	assert.Equal(t, first.In+20, first.ByStart()[0].Start, "a tick on site ends the drive")
}

// The car holds a little more than one of two garlands. One person makes a second trip, and the garland that is not a
// must waits for it.
func TestSecondTrip(t *testing.T) {
	window := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T14:00"),
		job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Bea"), job.Put("member/c", "name", "Olek"),
		job.Put("kit/van", "kind", "car"), job.Put("kit/van", "name", "Van"), job.Put("kit/van", "count", 1),
		job.Put("kit/van", "litres", 2600), job.Put("member/a", "drives", true), job.Put("member/b", "drives", true)}
	for i, id := range []string{"last", "first"} {
		window = append(window, piece(id, "garland", map[string]any{"length_mm": 6000, "recipe": "2x11@9.5",
			"built": "home", "accents": 0, "order": i, "priority": []string{"should", "must"}[i],
			"colours": shares("coral", 1.0)})...)
	}
	j := bringAll(made(window...))
	p, trip := plan.Make(j), "card/trip/2"
	require.Contains(t, cardsByKey(p), trip)
	require.NotContains(t, cardsByKey(p), "card/trip/3")
	assert.Contains(t, task.Keys(cardsByKey(p)["card/fix/last"].After), trip)
	assert.NotContains(t, task.Keys(cardsByKey(p)["card/fix/first"].After), trip, "musts go on the first trip")
	c := clockOf(t, j, longBefore(t, j), nil)
	entry, there := c.Task(trip)
	require.True(t, there)
	assert.Len(t, c.Names(entry), 1, "one person drives")
	assert.GreaterOrEqual(t, entry.End-entry.Start, 2*c.Drive+2*15)
	last, _ := c.Task("card/fix/last")
	assert.GreaterOrEqual(t, last.Start, entry.End)

	two := job.Try(j, []job.Change{job.Put("kit/van", "count", 2)})
	assert.NotContains(t, cardsByKey(plan.Make(two)), trip, "a second car saves it")
	assert.Greater(t, c.Finish, clockOf(t, two, longBefore(t, j), nil).Finish)
	far := job.Try(j, []job.Change{job.Put("override/clock/drive", "value", 60)})
	assert.GreaterOrEqual(t, clockOf(t, far, longBefore(t, j), nil).Finish, c.Finish+60, "a longer drive delays the end")
}

// Balloons lose air, so they are filled on the latest possible evenings, and no card leaves a few minutes for the next
// evening. Buying and testing come well before.
func TestHomeWorkIsOnTheLatestPossibleEvenings(t *testing.T) {
	t.Parallel()
	demo := readJob(t, "reading-room")
	rows := []struct {
		name     string
		change   []job.Change
		evenings []string
	}{
		{"as it is, two of three", nil, []string{"2027-05-06", "2027-05-07"}},
		{"with seven to choose from", []job.Change{job.Put("override/clock/evenings", "value", 7)},
			[]string{"2027-05-06", "2027-05-07"}},
		{"short evenings", []job.Change{job.Put("override/clock/evening-minutes", "value", 120)},
			[]string{"2027-05-05", "2027-05-06", "2027-05-07"}},
		{"long evenings", []job.Change{job.Put("override/clock/evening-minutes", "value", 400)}, []string{"2027-05-07"}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			j := job.Try(demo, row.change)
			c := clockOf(t, j, longBefore(t, j), nil)
			days := map[string]bool{}
			for _, entry := range c.Tasks {
				if entry.Place != task.Home && entry.Place != task.Load {
					continue
				}
				if entry.Key == "card/shop" || strings.HasPrefix(entry.Key, "card/test/") {
					assert.Equal(t, "2027-05-01", string(c.At(entry.Start)[:10]), entry.Title)
					continue
				}
				days[string(c.At(entry.Start)[:10])] = true
				ends := c.At(entry.End)
				assert.True(t, c.At(entry.Start)[:10] == ends[:10] || ends[11:] > "18:50",
					"%s is left with minutes for another evening: %s to %s", entry.Title, c.At(entry.Start), ends)
			}
			var list []string
			for day := range days {
				list = append(list, day)
			}
			assert.ElementsMatch(t, row.evenings, list)
		})
	}
}

func TestLateAfterTheDoors(t *testing.T) {
	j, in := loaded(t)
	j = later(t, j, "Ines", in-60, job.Put("card/load", "done", true))
	now := at(t, j.Brief.Doors) + 10
	c := clockOf(t, j, now, nil)
	assert.Equal(t, "past", c.Verdict)
	require.True(t, c.Planned())
	assert.Zero(t, c.Odds)
	assert.Greater(t, c.Half, c.Doors+10)
	assert.Regexp(t,
		`^The doors have been open since 11:30; \d+ cards left\. Likely done \d\d:\d\d, safe bet \d\d:\d\d\.$`,
		c.Sentence)
	assert.NotEmpty(t, c.Tasks)
}

// A tick that the server has not seen yet has no time. The plan on that phone stays.
func TestATickBeforeItIsSentHasNoTime(t *testing.T) {
	j, in := loaded(t)
	sent := clockOf(t, later(t, j, "Ines", in, job.Put("card/load", "done", true)), in, nil)
	state := j.State.Clone()
	state.Apply(job.PendingRec(job.Op{ID: "not-sent-yet", Device: "Ines", Number: 7, Version: job.Version,
		Kind: job.Set, Entity: "card/load", Field: "done", Value: job.Put("", "", true).Value},
		job.Author{Role: job.Helper, Name: "Ines"}))
	c := clockOf(t, job.Read(j.ID, state, j.Private), in, nil)
	require.True(t, c.Planned(), c.Sentence)
	assert.InDelta(t, sent.Finish, c.Finish, 30)
}
