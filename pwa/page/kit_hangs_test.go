package page_test

import (
	"testing"

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
// is filled.
func TestKitFormShowsTheFieldsOfItsKind(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora").visit("/jobs/demo/kit")
	for _, row := range []struct {
		field string
		asked bool
	}{
		{"stand.test_dip_mm", true}, {"stand.litres", false}, {"car.litres", true}, {"car.test_dip_mm", false},
		{"ladder.height_mm", true}, {"ladder.frame", false},
		{"sign.weight_g", true}, {"sign.tested_mm", false}, {"pump.width_mm", false}, {"new.litres", true}, {"new.frame",
			true},
	} {
		assert.Equal(t, row.asked, v.doc.Find(`[name="`+row.field+`"]`).Length() == 1, row.field)
	}
	v.submit("#form-car", form.Values{"car.kind": {"other"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, 1, v.doc.Find(`[name="car.litres"]`).Length(), "it has a value")
}
