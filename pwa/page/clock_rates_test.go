package page_test

import (
	"garlandry/app/forecast"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRatesOfOneJobMoveTheClockOfTheNext checks that rates adopted from one job apply to existing upcoming jobs without
// measurements of their own, and to new jobs, but not to a past job.
func TestRatesOfOneJobMoveTheClockOfTheNext(t *testing.T) {
	w := newWorld(t)
	dora := job.Author{Role: job.Owner, Name: "Dora"}
	for _, id := range []string{"seen", "next", "measured", "over"} {
		w.load(id, "reading-room.json")
	}
	const row = "minutes/duplet/11/beginner"
	w.write(dora, page.Write{Job: "next", Changes: []job.Change{job.Put("override/"+row, "value", 0.6),
		job.Put("override/"+row, "note", "from your last job: guessed")}})
	w.write(dora, page.Write{Job: "measured", Changes: []job.Change{job.Put("override/"+row, "value", 0.9),
		job.Put("override/"+row, "note", "timed in May")}})
	w.write(dora, page.Write{Job: "over", Changes: []job.Change{job.Put("brief", "in", "2026-05-08T08:00"),
		job.Put("brief", "doors", "2026-05-08T11:00"), job.Put("brief", "down", "2026-05-08T18:00")}})
	tomasz := job.Author{Role: job.Helper, Name: "Tomasz"}
	for range 12 { // one cluster every nine minutes
		w.now += 9*60_000 - 10_000
		w.write(tomasz, page.Write{Job: "seen", Changes: []job.Change{job.Count("card/make/door", 1)}})
	}
	clockOf := func(id string) (job.Job, *forecast.Forecast) {
		j, _ := w.read(id)
		return j, forecast.New(j, plan.Make(j), 0, forecast.Usual, nil)
	}
	_, before := clockOf("next")

	v := w.visitor(job.Owner, "Dora")
	v.now = w.now
	v.visit("/jobs/seen/clock")
	require.Equal(t, 1, v.doc.Find("#took > li").Length())
	v.submit("form#rates-fill-beginner", form.Values{})
	assert.Contains(t, v.doc.Text(), "here and in 2 upcoming jobs")
	seen, _ := clockOf("seen")
	next, after := clockOf("next")
	require.NotNil(t, seen.Overrides[row].Value)
	assert.Greater(t, *seen.Overrides[row].Value, 1.1)
	assert.Equal(t, *seen.Overrides[row].Value, *next.Overrides[row].Value)
	assert.Regexp(t, "^from your last job: Seen at ", next.Overrides[row].Note)
	assert.Greater(t, after.Ninety, before.Ninety, "slower hands end later")
	assert.Nil(t, next.Overrides["minutes/duplet/11/practised"].Value, "other skills stay unchanged")
	measured, _ := w.read("measured")
	assert.Equal(t, 0.9, *measured.Overrides[row].Value, "that job's own measurement stays")
	over, _ := w.read("over")
	assert.Empty(t, over.Overrides)

	v.visit("/jobs/seen/clock")
	assert.Zero(t, v.doc.Find("form#rates-fill-beginner").Length(), "the offer must disappear")
	v.visit("/new").submit("#new-job", form.Values{"title": {"A fifth"}})
	assert.Equal(t, *seen.Overrides[row].Value, *v.current().Overrides[row].Value)

	lead := w.visitor(job.Lead, "Ines")
	refused := page.Post(lead.world1(), "/jobs/seen/clock", form.Values{"act": {"rates"}})
	assert.Equal(t, 403, refused.Status)
}
