package page_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// A garland that takes two, and one person: the clock names the card, gives odds of the rest, and a press lets one pair
// of hands do it.
func TestTheClockOffersCuresForACardThatNobodyCanDo(t *testing.T) {
	w := newWorld(t)
	w.load("supper", "allotment-supper.json")
	v := w.visitor(job.Owner, "Dora").visit("/jobs/supper/clock")
	assert.Contains(t, v.doc.Find("#clock-answer").Text(), "Odds of the rest")
	assert.Contains(t, v.doc.Find("#clock-answer").Text(), "Must-haves: too few hands")
	blocked := v.doc.Find("#blocked")
	require.Equal(t, 1, blocked.Length())
	assert.Contains(t, blocked.Text(), "Put up Gate garland")
	cures := blocked.Find("form input[name=id]")
	require.Positive(t, cures.Length())
	v.post("/jobs/supper/clock", form.Values{"act": {"fix"}, "id": {"alone/card/fix/gate"}})
	after := v.visit("/jobs/supper/clock")
	assert.Zero(t, after.doc.Find("#blocked").Length())
	assert.NotContains(t, after.doc.Find("#clock-answer").Text(), "Without")
}
