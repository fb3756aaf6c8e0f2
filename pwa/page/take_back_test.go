package page_test

import (
	"testing"

	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
)

// TestUndoFollowsTheCount checks that each tap on "Undo" undoes the newest step of the count.
func TestUndoFollowsTheCount(t *testing.T) {
	_, v := typedJob(t)
	id, card := v.current().ID, "card/make/garland"
	at := "/jobs/" + id + "/do"
	made := func() int { return v.current().Made(card) }
	v.post(at, form.Values{"act": {"add"}, "e": {card}, "n": {"5"}})
	v.post(at, form.Values{"act": {"count"}, "e": {card}, "n": {"12"}})
	assert.Equal(t, 12, made())
	back := `.tally form:has([name="op"])`
	v.visit("/jobs/" + id + "/cards/make/garland")
	assert.Contains(t, v.doc.Find(back).Text(), "Undo the count of 12")
	v.submit(back, nil)
	assert.Equal(t, 5, made(), "the addition before the count must count again")
	v.post(at, form.Values{"act": {"count"}, "e": {card}, "n": {"7"}})
	v.post(at, form.Values{"act": {"add"}, "e": {card}, "n": {"2"}})
	v.visit("/jobs/"+id+"/cards/make/garland").submit(back, nil)
	assert.Equal(t, 7, made(), "an addition after a count must be undone first")
	for _, left := range []int{5, 0} {
		v.visit("/jobs/"+id+"/cards/make/garland").submit(back, nil)
		assert.Equal(t, left, made())
	}
	v.visit("/jobs/" + id + "/cards/make/garland")
	assert.Equal(t, 0, v.doc.Find(back).Length(), "there must be nothing left to undo")
}
