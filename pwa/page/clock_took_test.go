package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const dupletRow = "minutes/duplet/11/practised"

// tookReading returns the pages of two jobs. In the first, Ines made all door clusters, of 64 minutes by the table, and
// typed in how long it took.
func tookReading(t *testing.T, minutes string) (*world, *visitor) {
	w := newWorld(t)
	w.load("seen", "reading-room.json")
	w.load("next", "reading-room.json")
	ines := w.visitor(job.Helper, "Ines").visit("/jobs/seen/cards/make/door")
	require.Zero(t, ines.doc.Find("#took").Length(), "a card that is not done has no time yet")
	ines.post("/jobs/seen/do", form.Values{"act": {"add"}, "e": {"card/make/door"}, "n": {"13"},
		"back": {"/jobs/seen/cards/make/door"}})
	ines.post("/jobs/seen/do", form.Values{"act": {"add"}, "e": {"card/make/door"}, "n": {"13"},
		"back": {"/jobs/seen/cards/make/door"}})
	ines.submit("#took form", form.Values{"text": {minutes}})
	require.Equal(t, 200, ines.reply.Status)
	v := w.visitor(job.Owner, "Dora")
	v.now = w.now
	return w, v.visit("/jobs/seen/clock")
}

// TestTheClockAsksBeforeRatesChangeAndTakesThemBack checks the question with before and after, the answer here and in
// the next job, and both ways to take it back with one tap.
func TestTheClockAsksBeforeRatesChangeAndTakesThemBack(t *testing.T) {
	w, v := tookReading(t, "100")
	took := v.doc.Find("#took > li")
	require.Equal(t, 1, took.Length())
	assert.Contains(t, took.Text(), "practised: 1 h 40 min instead of 1 h 4 min")
	assert.Regexp(t, `One duplet of 11-inch: 0\.5 min → 0\.[67]\d? min`, took.Text())
	assert.Contains(t, took.Text(), "Plan with these from now on?")
	was, _ := w.read("next")

	for _, undo := range []string{"flash", "row"} {
		v.visit("/jobs/seen/clock").submit("form#rates-fill-practised", form.Values{})
		assert.Contains(t, v.doc.Text(), "here and in 1 upcoming job.")
		seen, next := v.current1("seen"), v.current1("next")
		require.NotNil(t, seen.Overrides[dupletRow].Value)
		assert.Greater(t, *seen.Overrides[dupletRow].Value, 0.55)
		assert.Equal(t, *seen.Overrides[dupletRow].Value, *next.Overrides[dupletRow].Value)
		if undo == "flash" {
			v.submit(".flash form", form.Values{})
		} else {
			v.visit("/jobs/seen/clock").submit("#took form", form.Values{})
		}
		require.Equal(t, 200, v.reply.Status, undo)
		assert.Empty(t, v.current1("seen").Overrides, undo)
		assert.Equal(t, was.Overrides, v.current1("next").Overrides, undo)
		assert.Equal(t, plan.Make(was).Cards, plan.Make(v.current1("next")).Cards, undo)
	}
	w.write(job.Author{Role: job.Owner, Name: "Dora"}, page.Write{Job: "seen",
		Changes: []job.Change{job.Put("brief", "notes", "x")}})
	v.post("/jobs/seen/do", form.Values{"act": {"unrate"}, "text": {"fill/practised"}, "back": {"/jobs/seen/clock"}})
	assert.Contains(t, v.doc.Text(), "changed", "there is nothing left to take back")
	lead := page.Post(w.visitor(job.Lead, "Ines").world1(), "/jobs/seen/do",
		form.Values{"act": {"unrate"}, "text": {"fill/practised"}})
	assert.Empty(t, lead.Writes)
}

// TestTimesFarFromTheTableHaveTheirOwnQuestion types in a sixth of the table's time, and ten times it.
func TestTimesFarFromTheTableHaveTheirOwnQuestion(t *testing.T) {
	for _, row := range []struct {
		minutes, question, button string
		after                     float64
	}{
		{"11", "11 min where the table says 1 h 4 min: use a third?", "Use a third", 0.17},
		{"640", "10 h 40 min where the table says 1 h 4 min: use three times?", "Use three times", 1.5},
	} {
		_, v := tookReading(t, row.minutes)
		assert.Contains(t, v.doc.Find("#took").Text(), row.question)
		assert.Equal(t, row.button, v.doc.Find("form#rates-fill-practised button").Text())
		all := page.Post(v.world1(), "/jobs/seen/clock", form.Values{"act": {"rates"}, "id": {"all"}})
		assert.Empty(t, all.Writes, "only its own answer uses it")
		v.submit("form#rates-fill-practised", form.Values{})
		assert.Equal(t, row.after, *v.current1("seen").Overrides[dupletRow].Value)
	}
}

// TestCountsAfterTheBatchOfferNoRates counts two piles at the end of a batch.
func TestCountsAfterTheBatchOfferNoRates(t *testing.T) {
	w := newWorld(t)
	w.load("seen", "reading-room.json")
	tomasz := job.Author{Role: job.Helper, Name: "Tomasz"}
	for range 2 { // ten seconds apart
		w.write(tomasz, page.Write{Job: "seen", Changes: []job.Change{job.Count("card/make/door", 5)}})
	}
	v := w.visitor(job.Owner, "Dora")
	v.now = w.now
	v.visit("/jobs/seen/clock")
	assert.Zero(t, v.doc.Find("#took").Length())
	all := page.Post(v.world1(), "/jobs/seen/clock", form.Values{"act": {"rates"}, "id": {"all"}})
	assert.Empty(t, all.Writes)
}

// TestMinutesTypedOnACard checks what the field of a done card takes, and that it can be emptied and undone.
func TestMinutesTypedOnACard(t *testing.T) {
	w, _ := tookReading(t, "100")
	bea := w.visitor(job.Helper, "Bea").visit("/jobs/seen/cards/make/door")
	assert.Equal(t, "100", bea.doc.Find("#took input[type=text]").AttrOr("value", ""))
	for _, wrong := range []string{"0", "-5", "1441", "soon", "1e9"} {
		bea.visit("/jobs/seen/cards/make/door").submit("#took form", form.Values{"text": {wrong}})
		assert.Equal(t, 422, bea.reply.Status, wrong)
		assert.Contains(t, bea.doc.Text(), "From 1 to 1440", wrong)
	}
	for _, right := range []string{"90", " 90 min", "90.0"} {
		bea.visit("/jobs/seen/cards/make/door").submit("#took form", form.Values{"text": {right}})
		assert.Equal(t, "90", bea.doc.Find("#took input[type=text]").AttrOr("value", ""), right)
	}
	bea.visit("/jobs/seen/cards/make/door").submit("#took form", form.Values{"text": {""}})
	assert.Empty(t, bea.doc.Find("#took input[type=text]").AttrOr("value", ""))
	bea.submit(".flash form", form.Values{})
	assert.Equal(t, "90", bea.doc.Find("#took input[type=text]").AttrOr("value", ""), "one tap takes it back")
}

// TestNobodyPlansNoMinutes types 0 into the form of a card.
func TestNobodyPlansNoMinutes(t *testing.T) {
	w := newWorld(t)
	w.load("seen", "reading-room.json")
	v := w.visitor(job.Owner, "Dora").visit("/jobs/seen/cards/make/door")
	v.visit(v.doc.Find("#card-extras a").AttrOr("href", "")).submit("#edit-card", form.Values{"minutes": {"0"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Text(), "Every card takes some time")
	v.submit("#edit-card", form.Values{"minutes": {"12"}})
	require.Equal(t, 200, v.reply.Status)
	card, _ := view.FindCard(plan.Make(v.current1("seen")), "card/make/door")
	assert.Equal(t, 12.0, card.Minutes)
}
