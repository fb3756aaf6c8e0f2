package page_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

func TestASignHasAFrameAndAPlaceOnIt(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora").visit("/jobs/demo/kit")
	sign := func() job.Kit { k, _ := v.current1("demo").KitItem("sign"); return k }
	assert.Equal(t, 1, v.doc.Find(`#form-sign [name="sign.frame"]`).Length())
	v.submit("#form-sign", form.Values{"sign.frame": {"stand"}, "sign.at_mm": {"1.2 m"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, []any{"stand", 1200.0}, []any{sign().Frame, sign().AtMM})
	v.submit("#form-sign", form.Values{"sign.at_mm": {"11 m"}, "sign.notes": {"new cable"}})
	require.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Find("#"+v.doc.Find(`[name="sign.at_mm"]`).AttrOr("id", "")+"-error").Text(),
		"past the end of Wide frame")
	assert.Equal(t, "new cable", v.doc.Find(`#form-sign [name="sign.notes"]`).Text(), "the typed text must stay")
	assert.Equal(t, 1200.0, sign().AtMM)
}

// TestKitFormShowsTheFieldsOfItsKind checks that the form of a kit item shows the fields of its kind and any other that
// is filled, and that a new thing is asked for its kind first.
func TestKitFormShowsTheFieldsOfItsKind(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora").visit("/jobs/demo/kit")
	for _, row := range []struct {
		field string
		asked bool
	}{
		{"stand.test_dip_mm", true}, {"stand.litres", false}, {"car.litres", true}, {"car.test_dip_mm", false},
		{"ladder.height_mm", true}, {"ladder.frame", false},
		{"sign.weight_g", true}, {"sign.tested_mm", false}, {"pump.width_mm", false}, {"pump.height_mm", false},
		{"new.name", false}, {"stand.kind", false},
	} {
		assert.Equal(t, row.asked, v.doc.Find(`[name="`+row.field+`"]`).Length() == 1, row.field)
	}
	for _, row := range []struct {
		kind string
		asks []string
	}{
		{"frame", []string{"width_mm", "height_mm", "feet_depth_mm", "feet_width_mm", "tested_mm", "test_weight_g",
			"test_dip_mm", "test_stays_mm", "weight_g"}},
		{"pole", []string{"width_mm", "height_mm", "feet_depth_mm", "feet_width_mm", "weight_g"}},
		{"pump", nil},
		{"ladder", []string{"height_mm"}},
		{"car", []string{"litres", "longest_mm", "driver"}},
		{"cylinder", []string{"weight_g", "gas_l"}},
		{"other", []string{"width_mm", "height_mm", "weight_g", "frame", "at_mm"}},
	} {
		t.Run(row.kind, func(t *testing.T) {
			v.visit("/jobs/demo/kit")
			link := v.doc.Find(`#add a[href="/jobs/demo/kit?kind=` + row.kind + `"]`)
			require.Equal(t, 1, link.Length())
			v.visit(link.AttrOr("href", ""))
			var asks []string
			v.doc.Find(`#form-add [name^="new."]`).Each(func(_ int, s *goquery.Selection) {
				asks = append(asks, strings.TrimPrefix(s.AttrOr("name", ""), "new."))
			})
			assert.Equal(t, slices.Concat([]string{"kind", "name", "count"}, row.asks, []string{"notes"}), asks)
			v.submit("#form-add", form.Values{"new.name": {"Fresh " + row.kind}})
			require.Equal(t, 200, v.reply.Status, v.text())
			kit := v.current().Kit
			last := kit[len(kit)-1]
			assert.Equal(t, []string{row.kind, "Fresh " + row.kind}, []string{last.Kind, last.Name})
		})
	}
	v.post("/jobs/demo/kit", form.Values{"act": {"add"}, "new.name": {"Thing"}})
	assert.Equal(t, 422, v.reply.Status, "nothing says what it is")
}

// TestAnotherKindCarriesNothingAlong checks that a car that becomes something else keeps no field of a car. The form
// says so before it is saved.
func TestAnotherKindCarriesNothingAlong(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora").visit("/jobs/demo/kit")
	link := v.doc.Find(`#item-car a[href="/jobs/demo/kit?id=car&kind=other"]`)
	require.Equal(t, 1, link.Length())
	v.visit(link.AttrOr("href", ""))
	assert.Zero(t, v.doc.Find(`[name="car.litres"]`).Length(), "something else has no boot")
	assert.Contains(t, v.text(), "Saving this empties: Room, litres")
	car, _ := v.current1("demo").KitItem("car")
	require.Greater(t, car.Litres, 0.0)
	v.submit("#form-car", form.Values{"car.height_mm": {"tall"}})
	require.Equal(t, 422, v.reply.Status)
	assert.Equal(t, "other", standing(v.doc.Find("#form-car")).Get("car.kind"), "the kind stays with what was typed")
	v.submit("#form-car", form.Values{"car.height_mm": {"1 m"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	now, _ := v.current1("demo").KitItem("car")
	assert.Equal(t, job.Kit{ID: "car", Kind: "other", Name: car.Name, Count: car.Count, HeightMM: 1000, Notes: car.Notes,
		Order: car.Order}, now)
}
