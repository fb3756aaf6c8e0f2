package forecast_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

// solo returns a garland on a frame at home, and table pieces, for one person without a crew.
func solo() job.Job {
	return garland(3048, job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T13:00"),
		job.Put("kit/arch", "kind", "frame"), job.Put("kit/arch", "name", "Arch frame"),
		job.Put("kit/arch", "width_mm", 2000), job.Put("kit/arch", "count", 1),
		job.Put("piece/door", "frame", "arch"),
		job.Put("piece/tables", "name", "Tables"), job.Put("piece/tables", "kind", "tables"),
		job.Put("piece/tables", "count", 6), job.Put("piece/tables", "recipe", "2x5@4.5"),
		job.Put("piece/tables", "priority", "could"))
}

// titlesOf lists the cards that nobody can do.
func titlesOf(c *forecast.Forecast) string {
	var titles []string
	for i := range c.Blocked {
		titles = append(titles, c.Blocked[i].Title)
	}
	return strings.Join(titles, ", ")
}

// One person cannot put up a frame that takes two. The odds of the rest are there all the same, the must-haves count as
// not done, and what lets somebody put the frame up comes first.
func TestACardThatNobodyCanDoDoesNotSilenceTheClock(t *testing.T) {
	t.Parallel()
	j := solo()
	p := plan.Make(j)
	c := clockOf(t, j, 0, nil)
	require.True(t, c.Planned(), c.Sentence)
	assert.Contains(t, titlesOf(c), "Put up Arch frame")
	assert.Regexp(t, `^\d+ cards need more hands than you have\. The rest is on time\.`, c.Sentence)
	assert.Greater(t, c.Odds, 0.9, "the rest")
	assert.Zero(t, c.Musts)
	assert.Equal(t, "too few hands", c.MustHaves())
	assert.Equal(t, "late", c.Verdict, "a must-have is missing")
	for _, key := range []string{"card/frame/arch", "card/down/door"} {
		_, there := c.Task(key)
		assert.False(t, there, key)
	}
	for _, key := range []string{"card/fix/tables", "card/tidy"} {
		_, there := c.Task(key)
		assert.True(t, there, "%s goes on without the frame", key)
	}

	fixes := c.Fixes(j, &p, 0)
	require.NotEmpty(t, fixes)
	all := ""
	for _, fix := range fixes {
		all += " " + fix.Key
		assert.Less(t, len(fix.Forecast.Blocked), len(c.Blocked), "%s: %s", fix.Key, fix.Forecast.Sentence)
		after := clockOf(t, job.Try(j, fix.Changes()), 0, nil)
		assert.Equal(t, fix.Forecast.Sentence, after.Sentence, fix.Key)
		again := c.FindFix(j, &p, fix.Key)
		require.NotNil(t, again, fix.Key)
		for _, change := range again.Changes() {
			require.NoError(t, job.CheckChange(change))
		}
	}
	assert.Empty(t, fixes[0].Forecast.Blocked, "the first one is enough:%s", all)
	for _, key := range []string{" hands/0", " homehands", " allalone", " alone/card/frame/arch"} {
		assert.Contains(t, all, key)
	}
	assert.GreaterOrEqual(t, len(c.Cures(j, &p)), 4, "the page offers them before they are planned")
}

// Somebody who helps at home is not at the venue: what takes two there still does.
func TestHelpAtHomeIsNotAtTheVenue(t *testing.T) {
	t.Parallel()
	j := solo()
	p := plan.Make(j)
	fix := clockOf(t, j, 0, nil).FindFix(j, &p, "homehands")
	require.NotNil(t, fix)
	after := clockOf(t, job.Try(j, fix.Changes()), 0, nil)
	assert.NotEmpty(t, worksAt(after, "Help at home", task.Home))
	assert.Empty(t, worksAt(after, "Help at home", task.Site))
	assert.NotContains(t, titlesOf(after), "Test the top bar")
	assert.Contains(t, titlesOf(after), "Put up Arch frame")
}

// Two cards for one pair of hands are “both”, more are counted.
func TestTheCureForSeveralCardsCountsThem(t *testing.T) {
	t.Parallel()
	title := func(j job.Job) string {
		p := plan.Make(j)
		for _, cure := range clockOf(t, j, 0, nil).Cures(j, &p) {
			if cure.Key == "allalone" {
				return cure.Title
			}
		}
		return ""
	}
	assert.Equal(t, "Do all 3 with one pair of hands", title(solo()), "the test of the bar, frame and garland")
	tested := job.Try(solo(), []job.Change{job.Put("kit/arch", "tested_mm", 2000)})
	assert.Equal(t, "Do both with one pair of hands", title(tested))
}

// There is nothing to spray for shine if no garland is up. A second garland that one person can put up is sprayed.
func TestShineWaitsForSomethingThatHangs(t *testing.T) {
	t.Parallel()
	alone := clockOf(t, solo(), 0, nil)
	require.True(t, alone.Planned(), alone.Sentence)
	assert.Contains(t, titlesOf(alone), "Spray for shine")
	_, there := alone.Task("card/shine")
	assert.False(t, there)

	two := job.Try(solo(), []job.Change{job.Put("piece/rail", "name", "Rail"), job.Put("piece/rail", "kind", "garland"),
		job.Put("piece/rail", "line", "typed"), job.Put("piece/rail", "length_mm", 1500),
		job.Put("piece/rail", "recipe", "2x11@10"),
		job.Put("choice/"+task.AloneKey("card/fix/rail"), "pick", task.PickAlone)})
	c := clockOf(t, two, 0, nil)
	_, up := c.Task("card/fix/rail")
	_, there = c.Task("card/shine")
	assert.True(t, up, c.Sentence)
	assert.True(t, there)
	assert.NotContains(t, titlesOf(c), "Spray for shine")
}

// Two people who are never there together cannot put up a frame either.
func TestPeopleWhoNeverMeetCannotWorkTogether(t *testing.T) {
	t.Parallel()
	from := func(bea string) *forecast.Forecast {
		return clockOf(t, job.Try(solo(), []job.Change{job.Put("member/a", "name", "Ines"),
			job.Put("member/a", "home", true),
			job.Put("member/a", "to", "2027-05-08T10:00"), job.Put("member/b", "name", "Bea"),
			job.Put("member/b", "from", bea)}), 0, nil)
	}
	apart := from("2027-05-08T10:00")
	require.True(t, apart.Planned(), apart.Sentence)
	assert.Contains(t, titlesOf(apart), "Put up Arch frame")
	assert.NotContains(t, titlesOf(from("2027-05-08T09:00")), "Put up Arch frame")
}

// If nothing is left that somebody can do, the clock names the card and offers its cures. It is not done.
func TestIfNobodyCanDoAnythingTheCuresAreThere(t *testing.T) {
	t.Parallel()
	j := solo()
	blocked := titlesOf(clockOf(t, j, 0, nil))
	var ticks []job.Change
	for _, card := range plan.Make(j).Cards {
		if card.Place != task.TakeDown && !strings.Contains(blocked, card.Title) {
			ticks = append(ticks, job.Put(card.Key, "done", true))
		}
	}
	j = later(t, j, "Ines", at(t, j.Brief.In), ticks...)
	p, now := plan.Make(j), at(t, j.Brief.In)
	c := clockOf(t, j, now, nil)
	assert.False(t, c.Planned())
	assert.Contains(t, c.Sentence, "cards need more hands than you have.")
	assert.NotEqual(t, "done", c.Verdict)
	require.NotEmpty(t, c.Cures(j, &p))
	fixes := c.Fixes(j, &p, now)
	require.NotEmpty(t, fixes)
	assert.True(t, fixes[0].Forecast.Planned())
}

// One pair of hands is a choice for each card: it takes one person, half as long again, and keeps its cautions.
func TestOnePairOfHandsIsAChoice(t *testing.T) {
	t.Parallel()
	j := solo()
	with := cardsByKey(plan.Make(j))["card/frame/arch"]
	chosen := job.Put("choice/"+task.AloneKey("card/frame/arch"), "pick", task.PickAlone)
	require.NoError(t, job.CheckChange(chosen))
	p := plan.Make(job.Try(j, []job.Change{chosen}))
	alone := cardsByKey(p)["card/frame/arch"]
	assert.Equal(t, []int{2, 1}, []int{with.HandsMin, alone.HandsMin})
	for skill, minutes := range with.MinutesBy {
		assert.InDelta(t, 1.5*minutes, alone.MinutesBy[skill], 1e-9, "%s; common practice, no source", skill)
	}
	keys := ""
	for _, caution := range alone.Cautions {
		keys += " " + caution.Key
	}
	assert.Contains(t, keys, "lifting")
	assert.Contains(t, keys, "alone")
	assert.NotContains(t, strings.Join(alone.Steps, " "), "Two of you")
	asked := false
	for _, note := range p.Notes {
		asked = asked || note.Key == task.AloneKey("card/frame/arch") && note.Picked == task.PickAlone
	}
	assert.True(t, asked, "a note lets one take it back")
}
