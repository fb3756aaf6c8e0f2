package page_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestColoursCrewKitAndOwnLines(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/colours").submit(`[id="form-coral"]`, form.Values{"coral.sizes": {"5", "11"}})
	coral, _ := v.current().Colour("coral")
	assert.Equal(t, []int{5, 11}, coral.Sizes)
	v.submit(`[id="start-plum"]`, nil)
	require.Len(t, v.current().Colours, 6)
	assert.Equal(t, "Plum", v.current().Colours[5].Name)
	assert.Equal(t, 0, v.doc.Find(`[id="start-plum"]`).Length(), "a chosen colour must not be offered again")
	v.submit(`[id="remove-coral"]`, nil)
	require.Len(t, v.current().Colours, 5)
	v.submit("#flash form", nil)
	assert.Equal(t, "coral", v.current().Colours[0].ID, "it must be back in its place")
	v.visit("/jobs/demo/colours").submit(`[id="down-coral"]`, nil)
	assert.Equal(t, "coral", v.current().Colours[1].ID)

	v.visit("/jobs/demo/crew").
		submit("#form-add", form.Values{"new.name": {"Bruno"}, "new.skill": {"practised"},
			"new.from": {"2027-05-08T09:00"}, "new.home": {"1"}})
	bruno := v.current().Crew[3]
	assert.Equal(t, "Bruno", bruno.Name)
	assert.True(t, bruno.Home)
	assert.Equal(t, "practised", bruno.Skill)

	v.visit("/jobs/demo/kit?kind=frame").
		submit("#form-add", form.Values{"new.name": {"Round arch"}, "new.width_mm": {"2,4 m"}})
	assert.Equal(t, 2400.0, v.current().Kit[len(v.current().Kit)-1].WidthMM)

	lead := w.visitor(job.Lead, "Tomasz")
	lead.visit("/jobs/demo/added?list=site").
		submit("#form-add", form.Values{"new.text": {"Sweep the stairs"}, "new.minutes": {"15"}})
	last := v.current().Added[len(v.current().Added)-1]
	assert.Equal(t, "site", last.List)
	_, found := view.FindCard(plan.Make(v.current()), "card/added/"+last.ID)
	assert.True(t, found, "it must be a card")
}

func TestFiguresAreYourOwnOrTheTables(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/figures")
	figures := plan.Make(v.current()).Figures
	require.NotEmpty(t, figures)
	f := figures[0]
	key := view.FigureKey(f.Key)
	own := (f.Min + f.Max) / 2
	selector := `form:has([name="` + key + `"])`
	v.submit(selector, form.Values{key: {plainNumber(own)}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, own, *v.current().Overrides[f.Key].Value)
	assert.True(t, plan.Make(v.current()).Figures[0].Overridden)
	v.submit(selector, form.Values{view.FigureNote(f.Key): {"measured in May"}})
	assert.Equal(t, "measured in May", v.current().Overrides[f.Key].Note)

	seq := w.seq
	v.submit(selector, form.Values{key: {"a lot"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Equal(t, "a lot", standing(v.doc.Find(selector)).Get(key))
	v.visit("/jobs/demo/figures").submit(selector, form.Values{key: {plainNumber(f.Max*2 + 1)}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Find(".wronglist").Text(), plainNumber(f.Max))
	assert.Equal(t, seq, w.seq)

	v.visit("/jobs/demo/figures")
	assert.Contains(t, v.doc.Find(selector).Text(), "Back to")
	v.submit(selector, form.Values{"reset": {f.Key}})
	assert.False(t, plan.Make(v.current()).Figures[0].Overridden)
}

func plainNumber(x float64) string {
	return form.Text(&job.Field{Kind: job.Number, Min: -1e9}, encode(x), "")
}

func encode(x float64) []byte { return job.Put("x", "x", x).Value }

func TestFiguresSpeakTheUnitsOfTheJob(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/figures")
	assert.NotRegexp(t, `\d mm`, v.text(), "a job in feet must show no millimetres")
	key := view.FigureKey("ties/fix-every")
	v.submit(`form:has([name="`+key+`"])`, form.Values{key: {"3 ft"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.InDelta(t, 914.4, *v.current().Overrides["ties/fix-every"].Value, 1e-6)
	assert.Equal(t, "3 ft", v.doc.Find(`[name="`+key+`"]`).AttrOr("value", ""))
	v.submit(`form:has([name="`+key+`"])`, form.Values{key: {"1 in"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Find(".wronglist").Text(), "Distance between ties to the frame must be from 2 in to")
}

func TestCardChangedByALead(t *testing.T) {
	w := demo(t)
	lead := w.visitor(job.Lead, "Tomasz")
	lead.visit("/jobs/demo/cards/load")
	require.Equal(t, 1, lead.doc.Find(`a[href="/jobs/demo/change/card/load"]`).Length())
	lead.visit("/jobs/demo/change/card/load").submit("#edit-card", form.Values{"minutes": {"25"}})
	require.Equal(t, 200, lead.reply.Status, lead.text())
	require.Equal(t, 1, lead.doc.Find("textarea").Length(), "the note must be written only on the card")
	lead.submit("form:has(textarea)", form.Values{"text": {"Use the side door"}})
	long := strings.Repeat("x", 4001)
	lead.visit("/jobs/demo/cards/load").submit("form:has(textarea)", form.Values{"text": {long}})
	assert.Equal(t, 422, lead.reply.Status)
	assert.Contains(t, lead.text(), "up to 4000 characters; this has 4001. Not saved yet")
	assert.Equal(t, long, strings.TrimSpace(lead.doc.Find("textarea").Text()), "the typed text must stay")
	assert.Equal(t, "/jobs/demo/cards/load", standing(lead.doc.Find("form:has(textarea)")).Get("back"))
	card, _ := view.FindCard(plan.Make(lead.current()), "card/load")
	assert.Equal(t, "Use the side door", card.Note)
	assert.InDelta(t, 25, card.Minutes, 1e-9)
}

func TestDecisions(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	for _, n := range plan.Make(v.current1("demo")).Notes {
		if n.Key == "" || len(n.Options) == 0 {
			continue
		}
		want := n.Options[len(n.Options)-1].Value
		v.post("/jobs/demo/do", form.Values{"act": {"choose"}, "e": {"choice/" + n.Key}, "text": {want}})
		assert.Equal(t, want, v.current1("demo").Choices[n.Key])
		v.submit("#flash form", nil)
		assert.Empty(t, v.current1("demo").Choices[n.Key], "undo must clear the choice")
		v.post("/jobs/demo/do", form.Values{"act": {"choose"}, "e": {"choice/" + n.Key}, "text": {"something else"}})
		assert.Equal(t, 422, v.reply.Status)
		return
	}
	require.Fail(t, "the demo must ask, since blush lacks 18-inch")
}

// An answer of an earlier version, for one piece alone, counts until somebody answers for all. Undo brings it back.
func TestAnAnswerForAllPiecesReplacesOnesForOne(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	const one, all = "substitute/door/blush/18", "substitute/blush/18"
	choose := func(key, pick string) {
		v.post("/jobs/demo/do", form.Values{"act": {"choose"}, "e": {"choice/" + key}, "text": {pick}})
	}
	choices := func() [2]string { j := v.current1("demo"); return [2]string{j.Choices[one], j.Choices[all]} }
	choose(one, "keep")
	require.Equal(t, [2]string{"keep", ""}, choices(), "a page of an earlier version may still answer")
	choose(all, "others")
	assert.Equal(t, [2]string{"", "others"}, choices())
	v.submit("#flash form", nil)
	assert.Equal(t, [2]string{"keep", ""}, choices())
}

func TestAPieceAsksOnlyWhatConcernsIt(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	for path, asked := range map[string]bool{
		"/jobs/demo/pieces":                  true,
		"/jobs/demo/pieces/door":             true,
		"/jobs/demo/pieces/tables":           false,
		"/jobs/demo/pieces/new?kind=garland": false,
	} {
		v.visit(path)
		require.Equal(t, 200, v.reply.Status, path)
		assert.Equal(t, asked, v.doc.Find("#decisions").Length() == 1, path)
	}
}

func TestEveryCalculatorHasItsPage(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Helper, "Ines")
	v.visit("/calc")
	for _, c := range calc.All() {
		require.Equal(t, 1, v.doc.Find(`a[href="/calc/`+c.Name+`"]`).Length(), c.Name)
	}
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			v.visit("/calc/" + c.Name)
			require.Equal(t, 200, v.reply.Status)
			assert.Contains(t, v.doc.Find("#result").Text(), "Example, until you type")
			worked := v.doc.Find("#result .big").Text()
			assert.NotEmpty(t, worked, "there must be a large result")
			v.submit("#calc", nil)
			require.Equal(t, 200, v.reply.Status, v.text())
			assert.Equal(t, worked, v.doc.Find("#result .big").Text(), "typing the example must give its result")
			assert.Equal(t, 1, v.doc.Find("#calc-sources").Length())
			for _, in := range c.Inputs {
				if in.Required {
					v.visit("/calc/"+c.Name).submit("#calc", form.Values{in.Key: {"🎈"}})
					assert.Equal(t, 422, v.reply.Status, in.Key)
					assert.Equal(t, 1, v.doc.Find("#"+domID(in.Key)+"-error").Length(), in.Key)
				}
			}
		})
	}
}

func TestServerOnly(t *testing.T) {
	for _, path := range []string{"/j", "/j/open", "/scan", "/security", "/dev/gallery", "/jobs/demo/share",
		"/jobs/demo/share/new"} {
		assert.True(t, page.ServerOnly(path), path)
	}
	for _, path := range []string{"/", "/jobs/demo", "/nowhere"} {
		assert.False(t, page.ServerOnly(path), path)
	}
}

// TestHeldShowsOnTheFirstPage checks that the job's first page shows what waits for a decision to the owner only.
func TestHeldShowsOnTheFirstPage(t *testing.T) {
	w := demo(t)
	w.held = 3
	for role, lines := range map[job.Role]int{job.Owner: 1, job.Lead: 0, job.Helper: 0} {
		v := w.visitor(role, "Dora").visit("/jobs/demo")
		assert.Equal(t, lines, v.doc.Find(`#to-held[href="/jobs/demo/share#held"]`).Length(), role)
	}
}
