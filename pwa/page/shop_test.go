package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func TestTheOwnerSetsTheirOwnBags(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora").visit("/jobs/demo/shop")
	eleven, coral, spray := view.BagsInput("latex/11"), view.BagsInput(
		"latex/11/coral",
	), view.BagsInput("supply/shine-spray")
	v.submit("#shop", form.Values{eleven: {"100 for 9,90; 50 for 5.60"}, coral: {"72 for 6"}, spray: {"1 for 7.50"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	j := v.current1("demo")
	assert.Equal(
		t,
		map[string]string{"latex/11": "100 for 9.90, 50 for 5.60", "latex/11/coral": "72 for 6.00",
			"supply/shine-spray": "1 for 7.50"},
		j.Prices,
	)
	assert.Equal(t, "100, 50", j.Choices[packing.BagsOf+"latex/11"])
	cents, unpriced := packing.Cost(shopOf(j))
	require.Positive(t, cents)
	require.Positive(t, unpriced)
	assert.Contains(t, v.doc.Find(".big").Text(), "without")
	assert.Contains(t, v.doc.Find("#shop-latex-11-coral summary").Text(), "2 bags of 72")

	v.submit("#shop", form.Values{coral: {""}})
	assert.NotContains(t, v.current1("demo").Prices, "latex/11/coral", "an empty field must restore the usual bags")
	assert.Contains(t, v.current1("demo").Prices, "latex/11")
}

func TestBadBagsAreShownAtTheirFieldAndKept(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora").visit("/jobs/demo/shop")
	eleven, coral := view.BagsInput("latex/11"), view.BagsInput("latex/11/coral")
	seq := w.seq
	v.submit("#shop", form.Values{eleven: {"100 for 9.90"}, coral: {"a crate <for> 3"}})
	require.Equal(t, 422, v.reply.Status)
	assert.Equal(t, seq, w.seq, "nothing may be saved")
	input := v.doc.Find(`[name="` + coral + `"]`)
	assert.Equal(t, "true", input.AttrOr("aria-invalid", ""))
	assert.Equal(t, "a crate <for> 3", input.AttrOr("value", ""))
	assert.Equal(t, "100 for 9.90", v.doc.Find(`[name="`+eleven+`"]`).AttrOr("value", ""))
	assert.Equal(t, "#"+input.AttrOr("id", ""), v.doc.Find(".wronglist a").AttrOr("href", ""))
	_, open := v.doc.Find("#shop-latex-11-coral").Attr("open")
	assert.True(t, open, "the field's section must be open")
	v.submit("#shop", form.Values{coral: {strings.Repeat("12, ", 40)}})
	assert.Equal(t, 422, v.reply.Status, "too many bags")
	v.submit("#shop", form.Values{coral: {"12"}})
	require.Equal(t, 200, v.reply.Status)
	assert.Equal(t, "100 for 9.90", v.current1("demo").Prices["latex/11"])
}

func TestHelpersSeeNoPrices(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora").visit("/jobs/demo/shop")
	v.submit("#shop", form.Values{view.BagsInput("latex/11"): {"33 for 7.77"}})
	for _, role := range []job.Role{job.Helper, job.Lead} {
		h := w.visitor(role, "Bea").visit("/jobs/demo/shop")
		require.Equal(t, 200, h.reply.Status)
		assert.NotContains(t, h.text(), "7.77")
		assert.Contains(t, h.text(), "bags of 33")
		assert.Zero(t, h.doc.Find("#shop").Length())
	}
}

func TestBagsAreCopiedIntoTheNextJob(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora").visit("/jobs/demo/shop")
	v.submit("#shop", form.Values{view.BagsInput("latex/11"): {"100 for 9.90"}, view.BagsInput("latex/11/coral"): {"72"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	v.visit("/new").
		submit("#new-job", form.Values{"title": {"Next"}, view.StartColour: {"coral"}, "piece.garland": {"3 m"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	next := v.current()
	assert.Equal(t, "100 for 9.90", next.Prices["latex/11"])
	assert.Equal(t, "72", next.Choices[packing.BagsOf+"latex/11/coral"])

	v.visit("/new").
		submit("#new-job", form.Values{"title": {"Without"}, view.StartColour: {"coral"}, "piece.garland": {"3 m"},
			view.StartFigures: {}})
	id := v.current().ID
	require.Empty(t, v.current().Prices)
	v.visit("/jobs/"+id+"/figures").submit("#last-figures", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, "100 for 9.90", v.current().Prices["latex/11"])
}

func shopOf(j job.Job) []packing.ShopLine {
	p := plan.Make(j)
	return packing.Shop(j, p.Balloons, p.Pack)
}
