package forecast_test

import (
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/plan/task"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

func span(from, to job.Moment) []job.Span { return []job.Span{{From: from, To: to}} }

// worksAt returns when somebody works at a place, "" for any.
func worksAt(c *forecast.Forecast, name string, place task.Place) (times []string) {
	for _, entry := range c.ByStart() {
		for _, s := range entry.Spells {
			if c.People[s.Person].Name == name && (place == "" || entry.Place == place) {
				times = append(times, string(c.At(s.From))+" "+string(c.At(s.To)))
			}
		}
	}
	return times
}

// within checks that somebody works at a place, and only within the spans.
func within(t *testing.T, c *forecast.Forecast, name string, place task.Place, spans ...string) {
	t.Helper()
	times := worksAt(c, name, place)
	require.NotEmpty(t, times)
	for _, time := range times {
		from, to, _ := strings.Cut(time, " ")
		inside := false
		for _, s := range spans {
			begin, end, _ := strings.Cut(s, " ")
			inside = inside || begin <= from && to <= end
		}
		assert.True(t, inside, "%s works %s", name, time)
	}
}

func TestPeopleComeAndGo(t *testing.T) {
	t.Parallel()
	demo := readJob(t, "reading-room")
	now := longBefore(t, demo)
	t.Run("a break on the day, and back for the take-down", func(t *testing.T) {
		j := job.Try(demo, []job.Change{job.Put("member/bea", "from", "2027-05-08T08:00"),
			job.Put("member/bea", "to", "2027-05-08T09:00"), job.Put("member/bea", "again",
				append(span("2027-05-08T10:00", "2027-05-08T10:40"), span("2027-05-08T18:10", "2027-05-08T18:40")...)),
			job.Put("brief", "doors", "2027-05-08T13:00")})
		c := clockOf(t, j, now, nil)
		require.True(t, c.Planned())
		within(t, c, "Bea", task.Site, "2027-05-08T08:00 2027-05-08T09:00", "2027-05-08T10:00 2027-05-08T10:40")
		within(t, c, "Bea", task.TakeDown, "2027-05-08T18:10 2027-05-08T18:40")
		assert.Empty(t, c.Over)
	})
	t.Run("people who come back help with the take-down", func(t *testing.T) {
		gone := job.Try(demo, []job.Change{job.Put("member/bea", "to", "2027-05-08T12:00")})
		assert.Empty(t, worksAt(clockOf(t, gone, now, nil), "Bea", task.TakeDown))
		back := job.Try(gone, []job.Change{job.Put("member/bea", "again", span("2027-05-08T18:00", "2027-05-08T21:00"))})
		assert.NotEmpty(t, worksAt(clockOf(t, back, now, nil), "Bea", task.TakeDown))
	})
}

func TestPeopleHelpAtHome(t *testing.T) {
	t.Parallel()
	demo := readJob(t, "reading-room")
	now := longBefore(t, demo)
	t.Run("own evenings replace the usual ones for one person", func(t *testing.T) {
		j := job.Try(demo, []job.Change{job.Put("member/tomasz", "again", span("2027-05-06T15:00", "2027-05-06T17:00"))})
		c := clockOf(t, j, now, nil)
		require.True(t, c.Planned())
		const morning = "2027-05-08T05:00 2027-05-08T07:00" // the only time at home that Tomasz shares with Ines
		within(t, c, "Tomasz", task.Home, "2027-05-06T15:00 2027-05-06T17:00", morning)
		within(t, c, "Ines", task.Home, "2027-05-01T18:30 2027-05-01T21:30", "2027-05-06T18:30 2027-05-06T21:30",
			"2027-05-07T18:30 2027-05-07T21:30", morning)
		assert.NotEmpty(t, worksAt(c, "Tomasz", task.Site), "the day is unchanged")
	})
	t.Run("a time before the day is help at home", func(t *testing.T) {
		j := job.Try(demo, []job.Change{job.Put("member/bea", "again", span("2027-05-07T14:00", "2027-05-07T18:00")),
			job.Put("override/clock/evenings", "value", 0), // only she helps at home
			job.Put("override/clock/shop-evening", "value", 0)})
		c := clockOf(t, j, now, nil)
		place := task.Home
		if len(worksAt(c, "Bea", place)) == 0 {
			place = task.Load // she loads instead, at home too
		}
		within(t, c, "Bea", place, "2027-05-07T14:00 2027-05-07T18:00")
		within(t, c, "Bea", task.Site, "2027-05-08T08:00 2027-05-08T24:00")
	})
	t.Run("only own evenings at home", func(t *testing.T) {
		j := job.Try(demo, []job.Change{job.Put("override/clock/evenings", "value", 0),
			job.Put("override/clock/shop-evening", "value", 0), job.Put("member/tomasz", "home", false),
			job.Put("kit/stand", "tested_mm", 3000), job.Put("member/ines", "again",
				append(span("2027-05-06T13:00", "2027-05-06T19:00"), span("2027-05-07T13:00", "2027-05-07T19:00")...))})
		c := clockOf(t, j, now, nil)
		require.True(t, c.Planned())
		within(t, c, "Ines", task.Home, "2027-05-06T13:00 2027-05-06T19:00", "2027-05-07T13:00 2027-05-07T19:00")
		within(t, c, "Ines", task.Load, "2027-05-07T13:00 2027-05-07T19:00")
	})
}

// Balloons are bought before the evenings on which they are filled, or as soon as possible.
func TestBalloonsAreBoughtEarly(t *testing.T) {
	t.Parallel()
	demo := readJob(t, "reading-room")
	for _, row := range []struct {
		name  string
		back  int
		now   job.Moment
		wants string
	}{
		{"a week before", 7, "2027-04-08T12:00", "2027-05-01"}, {"four evenings before", 4, "2027-04-08T12:00", "2027-05-04"},
		{"as early as the usual evenings", 0, "2027-04-08T12:00", "2027-05-05"},
		{"begun late", 7, "2027-05-04T12:00", "2027-05-05"},
		{"on the last evening", 7, "2027-05-07T18:40", "2027-05-07"},
	} {
		t.Run(row.name, func(t *testing.T) {
			j := job.Try(demo, []job.Change{job.Put("override/clock/shop-evening", "value", row.back)})
			shop, there := clockOf(t, j, at(t, row.now), nil).Task("card/shop")
			require.True(t, there)
			c := clockOf(t, j, at(t, row.now), nil)
			assert.Equal(t, row.wants, string(c.At(shop.Start)[:10]))
			assert.Equal(t, forecast.NoTime, shop.StartBy)
		})
	}
}

// The forecast names who works past their own time, an evening or the doors, and for how long.
func TestOverrunsAreNamed(t *testing.T) {
	t.Parallel()
	demo := readJob(t, "reading-room")
	now := longBefore(t, demo)
	over := func(changes ...job.Change) map[string]forecast.Overrun {
		c := clockOf(t, job.Try(demo, changes), now, nil)
		require.True(t, c.Planned())
		named := map[string]forecast.Overrun{}
		for _, o := range c.Over {
			latest := 0
			for _, entry := range c.Tasks {
				for _, s := range entry.Spells {
					if s.Person == o.Person {
						latest = max(latest, s.To)
					}
				}
			}
			assert.LessOrEqual(t, o.Until, latest)
			assert.Positive(t, o.Minutes)
			named[c.People[o.Person].Name] = o
		}
		return named
	}
	assert.Empty(t, over(job.Put("brief", "doors", "2027-05-08T14:00")), "enough time")
	all := clockOf(t, job.Try(demo, []job.Change{job.Put("brief", "doors", "2027-05-08T10:00")}), now, nil)
	require.Len(t, all.Over, 3)
	text := strings.Join(all.Overruns(), " ")
	for _, o := range all.Over {
		assert.Contains(t, text, all.People[o.Person].Name)
	}
	assert.Contains(t, text, "past the doors.")
	late := over(job.Put("brief", "doors", "2027-05-08T10:00"))
	require.Len(t, late, 3)
	for name, o := range late {
		assert.Equal(t, "the doors", o.Past, name)
	}
	early := over(job.Put("member/tomasz", "to", "2027-05-08T08:00"), job.Put("member/bea", "to", "2027-05-08T08:30"),
		job.Put("card/frame/stand", "taken", "Tomasz"))
	if assert.Contains(t, early, "Tomasz") {
		assert.Equal(t, "their time", early["Tomasz"].Past)
	}
}
