package page_test

import (
	"strconv"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bare returns the demo without places for its pieces, without doors and tables.
func bare(t *testing.T) *world {
	t.Helper()
	w := demo(t)
	j, _ := w.read("demo")
	changes := []job.Change{job.Put("brief", "room_width_mm", nil), job.Put("brief", "room_height_mm", nil)}
	for _, p := range j.Pieces {
		changes = append(changes, job.Put("piece/"+p.ID, "at_mm", nil), job.Put("piece/"+p.ID, "up_mm", nil))
	}
	for _, b := range j.Boxes {
		changes = append(changes, job.Put("box/"+b.ID, "removed", true))
	}
	w.write(job.Author{Role: job.Owner}, page.Write{Job: "demo", Changes: changes})
	return w
}

// inRoom returns where a thing of the demo's room is.
func inRoom(v *visitor, entity string) look.Item {
	v.t.Helper()
	j, _ := v.read("demo")
	p := plan.Make(j)
	item, there := p.Room(0).Item(entity)
	require.True(v.t, there)
	return item
}

// drag posts what the page's script does: where a thing stood, and how far it went in the picture's units.
func (v *visitor) drag(entity string, acrossMM, upMM float64) {
	v.t.Helper()
	v.visit("/jobs/demo/room")
	group := v.doc.Find(`[data-piece="` + entity + `"]`)
	require.Equal(v.t, 1, group.Length(), entity)
	unit, err := strconv.ParseFloat(v.doc.Find(`#room-move [name=unit]`).AttrOr("value", ""), 64)
	require.NoError(v.t, err)
	v.submit("#room-move", form.Values{"act": {"drag"}, "id": {entity}, "at": {group.AttrOr("data-at", "")},
		"up": {group.AttrOr("data-up", "")}, "x": {plainNumber(acrossMM / unit)}, "y": {plainNumber(-upMM / unit)}})
	require.Equal(v.t, 200, v.reply.Status, v.text())
}

func TestADragIsSnappedAndOthersStay(t *testing.T) {
	w := bare(t)
	v := w.visitor(job.Lead, "Bea")
	was, other := inRoom(v, "piece/ring"), inRoom(v, "piece/columns")
	v.drag("piece/ring", 20_000, 1500)
	now := inRoom(v, "piece/ring")
	assert.InDelta(t, was.MiddleMM()+20_000, now.MiddleMM(), 110, "within what it snaps by")
	assert.InDelta(t, was.BottomMM+1500, now.BottomMM, 1)
	assert.Equal(t, other, inRoom(v, "piece/columns"))
	v.drag("piece/ring", 0, -1450)
	assert.InDelta(t, 0, inRoom(v, "piece/ring").BottomMM, 1, "it comes to rest on the floor")
	v.submit("#flash form", nil)
	assert.InDelta(t, was.BottomMM+1500, inRoom(v, "piece/ring").BottomMM, 1, "undone")
}

func TestArrowKeysMove(t *testing.T) {
	for _, tt := range []struct {
		units          measure.System
		act, fine      string
		acrossMM, upMM float64
	}{
		{measure.Metric, "left", "", -100, 0}, {measure.Metric, "right", "", 100, 0},
		{measure.Metric, "up", "", 0, 100}, {measure.Metric, "right", "1", 10, 0},
		{measure.Metric, "down", "1", 0, -10}, {measure.Imperial, "left", "", -101.6, 0},
		{measure.Imperial, "up", "1", 0, 12.7},
	} {
		t.Run(string(tt.units)+" "+tt.act+tt.fine, func(t *testing.T) {
			w := bare(t)
			v := w.visitor(job.Owner, "Dora")
			w.write(job.Author{Role: job.Owner}, page.Write{Job: "demo",
				Changes: []job.Change{job.Put("brief", "units", string(tt.units))}})
			was := inRoom(v, "piece/ring")
			v.visit("/jobs/demo/room")
			for range 2 { // the second press counts from where the first led to
				v.submit("#room-move", form.Values{"act": {tt.act}, "id": {"piece/ring"}, "fine": {tt.fine}})
			}
			now := inRoom(v, "piece/ring")
			assert.InDelta(t, was.MiddleMM()+2*tt.acrossMM, now.MiddleMM(), 0.2)
			assert.InDelta(t, was.BottomMM+2*tt.upMM, now.BottomMM, 0.2)
		})
	}
}

// Typed numbers are taken as typed, wrong ones are said at their field, and an emptied place lets a piece go back.
func TestPlacesByNumbers(t *testing.T) {
	w := bare(t)
	v := w.visitor(job.Owner, "Dora")
	itself := inRoom(v, "piece/ring")
	v.visit("/jobs/demo/room").submit("#room-places", form.Values{"piece/ring.at_mm": {"12 ft 3"},
		"piece/ring.up_mm": {"2 in"}, "brief.room_width_mm": {"60 ft"}, "brief.room_height_mm": {"8 ft"}})
	now := inRoom(v, "piece/ring")
	assert.InDelta(t, 12.25*304.8, now.MiddleMM(), 0.01)
	assert.InDelta(t, 50.8, now.BottomMM, 0.01)
	assert.InDelta(t, 60*304.8, v.current().Brief.RoomWidthMM, 0.01)
	assert.Contains(t, v.text(), "Side by side, the pieces are 22 ft 2 in wider than the room",
		"what does not fit is said here")
	v.submit("#room-places", form.Values{"piece/ring.at_mm": {"near the door"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Equal(t, 1, v.doc.Find(`.field[data-bad] [name="piece/ring.at_mm"]`).Length())
	assert.Equal(t, now, inRoom(v, "piece/ring"))
	v.visit("/jobs/demo/room").submit("#room-places", form.Values{"itself": {"piece/ring"}})
	assert.InDelta(t, itself.MiddleMM(), inRoom(v, "piece/ring").MiddleMM(), 1e-6)
	ring, _ := v.current().Piece("ring")
	assert.Nil(t, ring.AtMM)
	assert.Nil(t, ring.UpMM)
}

func TestDoorsAndTables(t *testing.T) {
	w := bare(t)
	v := w.visitor(job.Lead, "Bea")
	v.visit("/jobs/demo/boxes?kind=table")
	assert.Equal(t, "Table", v.doc.Find(`[name="new.name"]`).AttrOr("value", ""))
	v.submit("#form-add", form.Values{"new.name": {"Cake table"}, "new.at_mm": {"20 ft"}, "new.front": {"1"}})
	require.Len(t, v.current().Boxes, 1)
	box := v.current().Boxes[0]
	assert.Equal(t, "table", box.Kind)
	assert.InDelta(t, 1800, box.WidthMM, 6, "to half an inch")
	assert.True(t, box.Front)
	v.visit("/jobs/demo/room")
	assert.Equal(t, "Cake table, middle at 20 ft, on the floor",
		v.doc.Find(`[data-piece="box/`+box.ID+`"]`).AttrOr("aria-label", ""))
	assert.Equal(t, 0, v.doc.Find(`[name="brief.room_width_mm"]`).Length(), "the brief is the owner's")
	v.drag("box/"+box.ID, 3000, 0)
	assert.InDelta(t, 20*304.8+3000, v.current().Boxes[0].AtMM, 101)
}

// A helper sees the room and moves nothing.
func TestHelpersSeeTheRoom(t *testing.T) {
	w := bare(t)
	v := w.visitor(job.Helper, "Ines")
	v.visit("/jobs/demo/room")
	assert.Equal(t, 0, v.doc.Find("#page form, [data-piece]").Length())
	assert.Contains(t, v.doc.Find("#room").AttrOr("aria-label", ""), "middle at")
	v.post("/jobs/demo/room", form.Values{"act": {"right"}, "id": {"piece/ring"}})
	assert.Equal(t, 403, v.reply.Status)
}
