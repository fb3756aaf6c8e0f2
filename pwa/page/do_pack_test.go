package page_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestALineIsNotNeeded checks that a helper sets a line aside with one tap, that it stays on the page, counts no more,
// and comes back with one tap.
func TestALineIsNotNeeded(t *testing.T) {
	w, v := typedKit(t)
	at := "/jobs/" + v.current().ID + "/pack"
	h := w.visitor(job.Helper, "Ines").visit(at)
	const key = "pack/tool/trolley"
	all := lineCount(t, h)
	row := "#row-pack-tool-trolley"
	aside := row + " form:has([value=unneeded])"
	require.Equal(t, "Not needed: Trolley", strings.TrimSpace(h.doc.Find(aside+" button").Text()))
	h.submit(aside, nil)
	assert.Contains(t, flashOf(h), "Not needed: Trolley.")
	assert.Equal(t, "needed", h.doc.Find("#flash form [name=act]").AttrOr("value", ""), "undo in one tap")
	assert.True(t, v.current().Unneeded(key))
	h.visit(at)
	assert.Equal(t, all-1, lineCount(t, h))
	assert.Equal(t, "Trolley", h.doc.Find("#unneeded "+row+" s").Text(), "struck")
	assert.Zero(t, h.doc.Find(row+" form.tick").Length(), "nothing to tick")
	assert.NotContains(t, h.visit(at+"?left=1").doc.Find("#page").Text(), "Trolley")
	assert.Contains(t, h.visit("/jobs/"+v.current().ID+"/history?e="+key).doc.Text(), "Not needed")
	again := w.visitor(job.Helper, "Tomasz").visit(at).submit("#unneeded "+row+" form", nil)
	assert.Contains(t, flashOf(again), "Needed again: Trolley.")
	assert.False(t, v.current().Unneeded(key))
	assert.Equal(t, all, lineCount(t, again.visit(at)))
	assert.Zero(t, again.doc.Find("#unneeded").Length())
}

// TestAPackedLineThatIsNotNeededComesOut checks that what was packed of a line set aside is shown, to take it out.
func TestAPackedLineThatIsNotNeededComesOut(t *testing.T) {
	w, v := typedKit(t)
	at := "/jobs/" + v.current().ID + "/pack"
	w.write(job.Author{Role: job.Owner}, page.Write{Job: v.current().ID, Changes: []job.Change{
		job.Put("pack/kit/stand", "unneeded", true)}})
	v.visit(at + "?left=1")
	out := v.doc.Find("#row-pack-kit-stand form:has([value=unpack])")
	assert.Equal(t, "Take 3 out: Music stand", strings.TrimSpace(out.Text()))
	v.submit("#row-pack-kit-stand form:has([value=unpack])", nil)
	assert.Zero(t, v.current().Packed("pack/kit/stand"))
	assert.Zero(t, v.visit(at+"?left=1").doc.Find("#unneeded").Length())
}

// flashOf returns what the page says of the last act.
func flashOf(v *visitor) string { return v.doc.Find("#flash").Text() }

// lineCount returns of how many lines the pack page tells.
func lineCount(t *testing.T, v *visitor) int {
	t.Helper()
	return v.doc.Find(".bags .tickrow").Length()
}

func TestSettingAsideIsRefusedElsewhere(t *testing.T) {
	w, v := typedKit(t)
	at := "/jobs/" + v.current().ID + "/do"
	helper := w.visitor(job.Helper, "Ines")
	for _, in := range []form.Values{
		{view.FieldAct: {"unneeded"}, view.FieldEntity: {"card/load"}},
		{view.FieldAct: {"unneeded"}, view.FieldEntity: {"kit/ladder"}},
		{view.FieldAct: {"buy"}, view.FieldEntity: {"pack/tie/260"}},
		{view.FieldAct: {"buy"}, view.FieldEntity: {"pack/tie/260"}, view.FieldAmount: {"-1"}},
		{view.FieldAct: {"buy"}, view.FieldEntity: {"card/shop"}, view.FieldAmount: {"1"}},
	} {
		reply := page.Post(helper.world1(), at, in)
		assert.Empty(t, reply.Writes, "%v", in)
		assert.Contains(t, []int{400, 422}, reply.Status, "%v", in)
	}
	reply := page.Post(helper.world1(), at,
		form.Values{view.FieldAct: {"needed"}, view.FieldEntity: {"pack/tool/trolley"}})
	assert.Empty(t, reply.Writes, "it is on the list already")
}

// TestTicksSayWhatTheyMean checks the words of ticks, and the words after ticking.
func TestTicksSayWhatTheyMean(t *testing.T) {
	w, v := typedKit(t)
	at := "/jobs/" + v.current().ID
	h := w.visitor(job.Helper, "Ines")
	label := func(path, row string) string {
		return h.visit(at+path).doc.Find(row+" form.tick button").AttrOr("aria-label", "")
	}
	assert.Equal(t, "Bought: 260s for ties", label("/shop", "#row-shop-tie-260"))
	assert.Equal(t, "Packed: Music stand", label("/pack", "#row-pack-kit-stand"))
	assert.Equal(t, "Loaded: Load the car", label("/cards", "#row-list-card-load"))
	h.visit(at+"/pack").submit("#row-pack-kit-stand form.tick", nil)
	assert.Contains(t, flashOf(h), "Packed 4 of 4: Music stand.")
	assert.Contains(t, h.visit(at+"/pack").doc.Find("#row-pack-kit-stand").Text(), "Packed 4 of 4")
	h.visit(at+"/pack").submit("#row-pack-kit-stand form.tick", nil)
	assert.Contains(t, flashOf(h), "Taken out: Music stand.")
	h.visit(at+"/cards").submit("#row-list-card-load form.tick", nil)
	assert.Contains(t, flashOf(h), "Loaded: Load the car.")
	made := ""
	for _, c := range plan.Make(v.current()).Cards {
		if made == "" && strings.HasPrefix(c.Key, "card/make/") {
			made = c.Key
		}
	}
	h.post(at+"/do", form.Values{view.FieldAct: {"count"}, view.FieldEntity: {made}, view.FieldAmount: {"3"}})
	assert.Regexp(t, `Made 3 of \d+: Make the clusters for `, flashOf(h))
}

// TestWhatIsBoughtIsTicked checks the ticks of the shop list, for owner and helper.
func TestWhatIsBoughtIsTicked(t *testing.T) {
	w, v := typedKit(t)
	at := "/jobs/" + v.current().ID + "/shop"
	for _, who := range []*visitor{w.visitor(job.Helper, "Ines"), v} {
		who.visit(at)
		row := "#row-shop-latex-11-coral"
		need := who.doc.Find(row+" form.tick [name=n]").AttrOr("value", "")
		require.NotEmpty(t, need)
		who.submit(row+" form.inline", form.Values{view.FieldAmount: {"7"}})
		assert.Contains(t, flashOf(who), "Bought 7 of "+need+": Coral 11-inch.")
		assert.Contains(t, who.visit(at).doc.Find(row).Text(), "Bought 7 of "+need)
		who.submit(row+" form.tick", nil)
		assert.Contains(t, flashOf(who), "Bought "+need+" of "+need+": Coral 11-inch.")
		assert.Equal(t, "true", who.visit(at).doc.Find(row+" form.tick button").AttrOr("aria-pressed", ""))
		assert.Equal(t, "0", who.doc.Find(row+" .n").Text(), "nothing left to buy")
		who.submit(row+" form.tick", nil)
		assert.Contains(t, flashOf(who), "Bought 0 of "+need+": Coral 11-inch.")
		assert.Zero(t, v.current().Bought(job.LatexKey(11, "coral")))
	}
	w.write(job.Author{Role: job.Owner}, page.Write{Job: v.current().ID, Changes: []job.Change{
		job.Put("pack/tie/260", "have", 1000)}})
	assert.Zero(t, v.visit(at).doc.Find("#row-shop-tie-260 form.tick").Length(), "packed: no tick to take away")
	assert.Zero(t, v.doc.Find("form form").Length(), "no form within a form")
}

// TestAtHomeTheListSaysAtHand checks the words of the list where nothing travels.
func TestAtHomeTheListSaysAtHand(t *testing.T) {
	w, v := typedKit(t)
	id := v.current().ID
	w.write(job.Author{Role: job.Owner}, page.Write{Job: id, Changes: []job.Change{job.Put("brief", "travel", "none")}})
	v.visit("/jobs/" + id + "/pack")
	assert.Equal(t, "Have at hand", v.doc.Find("h1").Text())
	assert.Equal(t, "At hand: Music stand", v.doc.Find("#row-pack-kit-stand form.tick button").AttrOr("aria-label", ""))
	assert.NotContains(t, v.doc.Find("#page").Text(), "in the car")
	v.submit("#row-pack-kit-stand form.tick", nil)
	assert.Contains(t, flashOf(v), "At hand 4 of 4: Music stand.")
}
