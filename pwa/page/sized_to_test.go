package page_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// TestSizedToFollowsTheSize checks that an empty "sized to" shows the usual of the size and stays empty, and that the
// usual of an old size does not stay when the size is changed, while what somebody chose does.
func TestSizedToFollowsTheSize(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/pieces/new?kind=tables")
	hint := func() string { return v.doc.Find(`[name="to_in"]`).AttrOr("placeholder", "") }
	assert.Equal(t, "10", hint())
	assert.Empty(t, v.doc.Find(`[name="to_in"]`).AttrOr("value", ""))
	v.submit("#edit-piece", form.Values{"name": {"Giants"}, "size_in": {"36"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	giants := v.current().Pieces[len(v.current().Pieces)-1]
	assert.Equal(t, 36, giants.SizeIn)
	assert.Zero(t, giants.ToIn)
	v.visit("/jobs/demo/pieces/" + giants.ID)
	assert.Equal(t, "33", hint())

	v.visit("/jobs/demo/pieces/tables") // stored at 4.5 in, the usual of 5-inch
	v.submit("#edit-piece", form.Values{"size_in": {"18"}})
	tables, _ := v.current().Piece("tables")
	assert.Zero(t, tables.ToIn)
	v.visit("/jobs/demo/pieces/tables").submit("#edit-piece", form.Values{"to_in": {"15"}})
	v.visit("/jobs/demo/pieces/tables").submit("#edit-piece", form.Values{"size_in": {"24"}})
	tables, _ = v.current().Piece("tables")
	assert.Equal(t, 15.0, tables.ToIn, "not the usual of 18-inch: somebody chose it")
}

// TestNewColumnsAreBuiltAtTheVenue checks that columns and walls begin at the venue, and garlands at home.
func TestNewColumnsAreBuiltAtTheVenue(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	for kind, built := range map[string]string{"column": "site", "wall": "site", "garland": "home"} {
		v.visit("/jobs/demo/pieces/new?kind="+kind).submit("#edit-piece", form.Values{"name": {"New one"}})
		assert.Equal(t, built, v.current().Pieces[len(v.current().Pieces)-1].Built, kind)
	}
	v.visit("/jobs/demo/pieces/new?kind=wall").submit("#edit-piece", form.Values{"name": {"Wall"}, "built": {"home"}})
	assert.Equal(t, "home", v.current().Pieces[len(v.current().Pieces)-1].Built, "as chosen")
}

// TestNewBouquetsFloat checks that bouquets begin with helium and become air when that is chosen.
func TestNewBouquetsFloat(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/pieces/new?kind=bouquets").submit("#edit-piece", form.Values{"name": {"Ribbons"}})
	assert.Equal(t, "helium", v.current().Pieces[len(v.current().Pieces)-1].Gas)
	v.visit("/jobs/demo/pieces/new?kind=bouquets").submit("#edit-piece",
		form.Values{"name": {"Sticks"}, "gas": {"air"}})
	assert.Equal(t, "air", v.current().Pieces[len(v.current().Pieces)-1].Gas)
}
