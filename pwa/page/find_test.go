package page_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLongListsAreSearched searches jobs, archive, pieces and pack list by address, as without scripts.
func TestLongListsAreSearched(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	assert.Zero(t, v.visit("/").doc.Find("#find").Length(), "one job fits the screen")
	for i := range 9 {
		id := fmt.Sprintf("fair%d", i)
		w.load(id, "reading-room.json")
		w.write(job.Author{Role: job.Owner}, writeOf(id, job.Put("brief", "title", fmt.Sprintf("Fête no%d", i)),
			job.Put("brief", "away", i == 8)))
		w.write(job.Author{Role: job.Owner}, writeOf("demo", job.Put("piece/"+id, "name", fmt.Sprintf("Arch %d", i)),
			job.Put("piece/"+id, "kind", "garland"), job.Put("piece/"+id, "length_mm", 2000)))
	}
	w.write(job.Author{Role: job.Owner}, writeOf("demo", job.Put("piece/fair3", "notes", "Beside the écluse")))
	for _, row := range []struct {
		path, find, rows, first string
		shown                   int
	}{
		{"/", "fete NO3", ".jobrow", "Fête no3", 1},
		{"/", "FÊTE", ".jobrow", "Fête", 8},
		{"/", "nowhere", ".jobrow", "", 0},
		{"/jobs/demo/pieces", "ecluse", "#pieces li", "Arch 3", 1},
		{"/jobs/demo/pieces", "arch 18-inch", "#pieces li", "", 0},
		{"/jobs/demo/pack", "coral 11", ".tickrow", "Coral", 1},
		{"/jobs/demo/pack", "zzz", ".tickrow", "", 0},
	} {
		t.Run(row.path+" "+row.find, func(t *testing.T) {
			all := v.visit(row.path).doc.Find(row.rows).Length()
			assert.Empty(t, v.doc.Find("#found").Text(), "nothing is left out")
			v.visit(row.path + "?q=" + form.Values{"q": {row.find}}.Query()[2:])
			require.Equal(t, 200, v.reply.Status)
			shown := v.doc.Find(row.rows)
			assert.Equal(t, row.shown, shown.Length())
			assert.Contains(t, shown.First().Text(), row.first)
			assert.Equal(t, fmt.Sprintf("%d of %d shown", row.shown, all), v.doc.Find("#found").Text())
			assert.Equal(t, row.find, v.doc.Find("#find").AttrOr("value", ""))
			assert.Equal(t, 1, v.doc.Find(`.found a[href="`+row.path+`"]`).Length(), "a way back to all")
			assert.Equal(t, row.shown == 0, v.doc.Find("#page .delta:contains('Nothing found')").Length() == 1)
		})
	}
}

// TestASearchHidesNoProgress checks that the pack list says all lines above a search, and that a tick stays in it.
func TestASearchHidesNoProgress(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora").visit("/jobs/demo/pack")
	before := v.doc.Find(".progressline").Text()
	v.visit("/jobs/demo/pack?left=1&q=coral")
	assert.Equal(t, before, v.doc.Find(".progressline").Text())
	assert.Equal(t, "1", v.doc.Find(`#find-form [name="left"]`).AttrOr("value", ""), "both filters hold")
	v.submit(".tickrow form.tick", nil)
	require.Equal(t, 200, v.reply.Status)
	assert.Equal(t, "/jobs/demo/pack?left=1&q=coral", v.at)
}

func writeOf(id string, changes ...job.Change) page.Write {
	return page.Write{Job: id, Changes: changes}
}
