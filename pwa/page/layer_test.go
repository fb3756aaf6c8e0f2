package page_test

import (
	"strconv"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A lead adds layers to a piece, changes, moves and removes them, and takes that back; all without scripts.
func TestLayersOfAPiece(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Lead, "Tomasz")
	const at = "/jobs/demo/pieces/door/layers"
	v.visit("/jobs/demo/pieces/door")
	require.Equal(t, 1, v.doc.Find(`#layers a[href="`+at+`"]`).Length())
	assert.Zero(t, v.doc.Find("#layers ul").Length(), "no empty list")
	v.visit(at).submit("#form-add", form.Values{"new.name": {"Up to the ceiling"}, "new.recipe": {"2x11@10"},
		"new.count": {"9"}, "new.from_pct": {"60"}, "new.to_pct": {"100"}, "new.side": {"outer"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	require.Len(t, v.current1("demo").LayersOf("door"), 1)
	up := v.current1("demo").LayersOf("door")[0]
	assert.Equal(t, "Up to the ceiling", up.Name)
	assert.Equal(t, []float64{60, 100}, []float64{up.FromPct, up.ToPct})
	assert.Contains(t, v.doc.Find(`[id="item-`+up.ID+`"]`).Text(), "9 clusters, 2x11@10, from 60 to 100 %, outer side")

	v.visit(at).submit("#form-add", form.Values{"new.name": {""}, "new.recipe": {"3x5@4.5"}, "new.count": {"4"}})
	layers := v.current1("demo").LayersOf("door")
	require.Len(t, layers, 2)
	v.visit("/jobs/demo/pieces/door")
	assert.Contains(t, v.doc.Find("#layers").Text(), "Thickening")
	v.visit(at).submit(`[id="up-`+layers[1].ID+`"]`, nil)
	assert.Equal(t, layers[1].ID, v.current1("demo").LayersOf("door")[0].ID)

	v.visit(at).submit(`[id="form-`+up.ID+`"]`, form.Values{up.ID + ".count": {"5"}, up.ID + ".tie": {"glue"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	c := plan.Make(v.current1("demo")).Pieces[0]
	assert.Equal(t, 5, c.Layers[1].Clusters)
	assert.Equal(t, 0, c.Layers[1].Ties)
	v.visit(at).submit(`[id="remove-`+up.ID+`"]`, nil)
	require.Len(t, v.current1("demo").LayersOf("door"), 1)
	v.submit("#flash form", nil)
	require.Len(t, v.current1("demo").LayersOf("door"), 2, "undo must restore the layer")

	v.visit("/jobs/demo/pieces/door").submit("#copy-piece", nil)
	pieces := v.current1("demo").Pieces
	copied := v.current1("demo").LayersOf(pieces[len(pieces)-1].ID)
	require.Len(t, copied, 2, "a copy has the layers of the piece")
	assert.Equal(t, up.Name, copied[1].Name)
	assert.NotEqual(t, up.ID, copied[1].ID)
	v.visit("/jobs/demo/pieces?" + view.FieldFind + "=ceiling")
	assert.Equal(t, 2, v.doc.Find("#pieces > li").Length(), "pieces are found by their layers")
	owner := w.visitor(job.Owner, "Dora").visit("/jobs/demo/history")
	assert.Contains(t, owner.text(), "Up to the ceiling on")
	helper := w.visitor(job.Helper, "Ines").visit(at)
	assert.Equal(t, 403, helper.reply.Status)
}

func TestBadLayers(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	for _, row := range []struct {
		name, field string
		typed       form.Values
		says        string
	}{
		{"a stretch that ends before it begins", "to_pct", form.Values{"new.from_pct": {"60"}, "new.to_pct": {"40"}},
			"Until must be more than from"},
		{"more than all", "to_pct", form.Values{"new.to_pct": {"101"}}, "0 to 100"},
		{"no recipe", "recipe", form.Values{"new.recipe": {"3 of them"}}, "ecipe"},
		{"far too many", "count", form.Values{"new.count": {"3000"}}, "0 to 2000"},
	} {
		t.Run(row.name, func(t *testing.T) {
			v.visit("/jobs/demo/pieces/door/layers").submit("#form-add", row.typed)
			assert.Equal(t, 422, v.reply.Status)
			assert.Contains(t, v.doc.Find(".wronglist").Text(), row.says)
			assert.Equal(t, 1, v.doc.Find("#"+domID("new."+row.field)+"-error").Length(), row.field)
			assert.Empty(t, v.current1("demo").LayersOf("door"))
		})
	}
	assert.Equal(t, 404, v.visit("/jobs/demo/pieces/nowhere/layers").reply.Status)
}

// While one types, the page counts and draws what is typed, and stores nothing.
func TestALayerIsCountedAsOneTypes(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	bare := plan.Make(v.current1("demo")).Pieces[0].Balloons
	seq := w.seq
	const at = "/jobs/demo/pieces/door/layers"
	v.visit(at)
	assert.Equal(t, at, v.doc.Find("#form-add").AttrOr("data-live", ""))
	v.visit(at + "?act=add&new.name=&new.recipe=2x11%4010&new.count=7")
	assert.Equal(t, 1, v.doc.Find("#piece-front svg").Length())
	assert.Contains(t, v.doc.Find("#recount").Text(), "7 clusters, 2x11@10")
	assert.Contains(t, v.doc.Find("#recount").Text(), strconv.Itoa(bare+28)+" balloons")
	assert.Equal(t, "7", v.doc.Find(`[name="new.count"]`).AttrOr("value", ""), "what was typed stays")
	v.visit(at + "?act=add&new.name=&new.recipe=2x11%4010&new.count=x")
	assert.Equal(t, 200, v.reply.Status)
	assert.Equal(t, 0, v.doc.Find(".wronglist").Length(), "while typing, errors are beside the count")
	assert.Contains(t, v.doc.Find("#recount .wrong").Text(), "0 to 2000")
	assert.Equal(t, seq, w.seq)
	v.submit("#form-add", form.Values{"new.name": {"Foot"}, "new.recipe": {"2x11@10"}, "new.count": {"3"}})
	id := v.current1("demo").LayersOf("door")[0].ID
	v.visit(at + "?act=save&id=" + id + "&" + id + ".count=11&" + id + ".recipe=2x11%4010")
	assert.Contains(t, v.doc.Find("#recount").Text(), "Foot: 11 clusters, 2x11@10")
}

// Bases are typed as lengths in the units of the job.
func TestBasesAreTypedAsLengths(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/pieces/door").submit("#edit-piece", form.Values{"bases": {"7 ft + 4 ft 6 in"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	door, _ := v.current1("demo").Piece("door")
	assert.InDeltaSlice(t, []float64{2133.6, 1371.6}, door.Bases, 0.01)
	v.visit("/jobs/demo/pieces/door")
	assert.Equal(t, "7 ft + 4 ft 6 in", v.doc.Find("#f-bases").AttrOr("value", ""))
	v.submit("#edit-piece", form.Values{"bases": {"7 ft + a lot"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Equal(t, 1, v.doc.Find("#f-bases-error").Length())
	assert.Equal(t, "7 ft + a lot", v.doc.Find("#f-bases").AttrOr("value", ""))
}
