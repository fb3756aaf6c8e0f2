package page_test

import (
	"regexp"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lines returns the lines of the history, newest first.
func lines(v *visitor) []string {
	return v.doc.Find(".history li .rowtext").Map(func(_ int, s *goquery.Selection) string {
		return strings.Join(s.Find("span").Map(func(_ int, s *goquery.Selection) string { return s.Text() }), " | ")
	})
}

func TestHistoryReadsInPlainWords(t *testing.T) {
	w, v := typedJob(t)
	at := "/jobs/" + v.current().ID
	v.visit(at + "/history")
	require.Len(t, lines(v), 1, "creating a job must be one line: %v", lines(v))
	assert.Regexp(t, `^Started the job: Reading room reopening \| 2 pieces, 3 colours, 3 people \| Dora, .* ago$`,
		lines(v)[0])

	piece := v.current().Pieces[0]
	before := piece
	v.visit(at+"/pieces/"+piece.ID).submit("#edit-piece", form.Values{"length_mm": {"12 ft"}, "priority": {"could"}})
	require.Equal(t, 12*304.8, v.current().Pieces[0].LengthMM)
	v.visit(at + "/history")
	assert.Regexp(t, `^Changed: Garland \| Length: 12 ft; Priority: could \| Dora`, lines(v)[0])
	v.submit(".history form", nil)
	assert.Equal(t, before, v.current().Pieces[0], "undo must revert all fields of the form")
	assert.Regexp(t, `^Changed: Garland \| Length: 10 ft 6 in; Priority: must \| Dora`, lines(v)[0],
		"the undo must be listed and have an undo itself")
	v.submit(".history form", nil)
	assert.Equal(t, "could", v.current().Pieces[0].Priority)

	v.visit(at+"/crew").submit("#form-add", form.Values{"new.name": {"Bea"}})
	v.visit(at + "/history")
	assert.Regexp(t, `^Added: Bea \| Dora`, lines(v)[0])
	v.submit(".history form", nil)
	assert.Len(t, v.current().Crew, 3)
	for _, line := range lines(v) {
		assert.NotRegexp(t, `Place in the list|_mm|\[|\{|true|false`, line)
	}

	lead := w.visitor(job.Lead, "Ines")
	lead.visit(at + "/history?e=piece/" + piece.ID)
	require.NotZero(t, lead.doc.Find(".history form").Length(), "a lead must have undo for what a lead may change")
	lead.visit(at + "/history?e=brief")
	assert.Zero(t, lead.doc.Find(".history form").Length(), "but not the brief")

	v.visit(at+"/brief").submit("main form", form.Values{"floor": {"grass"}})
	v.visit(at + "/history")
	undo := standing(v.doc.Find(".history form").First())
	v.visit(at+"/brief").submit("main form", form.Values{"floor": {"gravel"}})
	helper := w.visitor(job.Helper, "Tomasz")
	assert.Equal(t, 422, pagePost(helper, at+"/do", undo).Status, "a helper may not change it")
	assert.Equal(t, 422, pagePost(v, at+"/do", undo).Status, "later changes must not be overwritten")
	assert.Equal(t, "gravel", v.current1(v.current().ID).Brief.Floor)
}

func TestHistoryNamesDecisionsFiguresAndCards(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	var asked count.Note
	for _, n := range plan.Make(v.current1("demo")).Notes {
		if n.Kind == "substitute" && len(n.Options) > 1 {
			asked = n
		}
	}
	require.NotEmpty(t, asked.Key)
	picked := asked.Options[1]
	key := view.FigureKey("ties/fix-every")
	v.post("/jobs/demo/do", form.Values{"act": {"choose"}, "e": {"choice/" + asked.Key}, "text": {picked.Value}})
	v.post("/jobs/demo/figures", form.Values{key: {"3 ft"}})
	v.post("/jobs/demo/change/card/load", form.Values{"minutes": {"25"}})
	v.post("/jobs/demo/do", form.Values{"act": {"note"}, "e": {"card/load"}, "text": {"Mind the lamp"}})
	v.visit("/jobs/demo/history")
	all := strings.Join(lines(v)[:4], "\n")
	assert.Contains(t, all, "Changed: Load the car | Note on the card: Mind the lamp | Dora")
	assert.Contains(t, all, "Changed: Load the car | Minutes: 25 | Dora")
	assert.Contains(t, all, "Changed: Distance between ties to the frame | Your own: 3 ft | Dora")
	assert.Regexp(t, `Decided: .* does not come in .*-inch, wanted for .* \| `+regexp.QuoteMeta(picked.Label)+` \| Dora`,
		all)
	v.submit(".history form", nil)
	assert.Empty(t, plan.Make(v.current1("demo")).Cards[0].Note)
}

// TestHistoryKeepsQuickFormsApart checks that forms sent in quick succession stay separate lines if one would hide the
// other: two values of one field, or a removal after a change.
func TestHistoryKeepsQuickFormsApart(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	at := "/jobs/" + id
	v.visit(at + "/history")
	before := len(lines(v))
	w.now += 60_000
	dora := job.Author{Role: job.Owner, Name: "Dora"}
	for _, change := range []job.Change{job.Put("piece/garland", "length_mm", 3657.6), job.Put("piece/garland",
		"length_mm", 3962.4), job.Put("piece/garland", "removed", true),
		job.Put("piece/garland", "removed", false), job.Put("piece/garland", "priority", "could")} {
		w.now -= 9_900 // a tenth of a second after the last form
		w.write(dora, page.Write{Job: id, Changes: []job.Change{change}})
	}
	v.visit(at + "/history")
	got := lines(v)
	require.Len(t, got, before+5, "%v", got)
	for i, want := range []string{`^Changed: Garland \| Priority: could \|`, `^Brought back: Garland \|`,
		`^Removed: Garland \|`, `^Changed: Garland \| Length: 13 ft \|`, `^Changed: Garland \| Length: 12 ft \|`} {
		assert.Regexp(t, want, got[i])
	}
	w.now += 60_000
	w.write(
		dora,
		page.Write{Job: id,
			Changes: []job.Change{job.Put("piece/garland", "length_mm", 3048.0), job.Put("piece/garland", "priority", "must")}},
	)
	v.visit(at + "/history")
	assert.Len(t, lines(v), before+6, "one form must still be one line")
	v.submit(".history form", nil)
	assert.Equal(t, 3962.4, v.current().Pieces[0].LengthMM)
	assert.Equal(t, "could", v.current().Pieces[0].Priority)
}
