package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReviewListIsReadableWhenTheJobIsGone checks that what the owner has to decide is described in plain words, with
// the job's title, on the phone that submitted it, after the job has left that phone.
func TestReviewListIsReadableWhenTheJobIsGone(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	helper := w.phone(job.Helper, "Ines")
	helper.enter("/jobs/" + id)
	helper.wire.set(offline)
	require.True(t, helper.tick("t", "/jobs/"+id, "card/look").Stored)
	require.True(
		t,
		helper.post(
			"u",
			"/jobs/"+id+"/do",
			"act",
			"add",
			"e",
			"card/make/garland",
			"n",
			"3",
			"back",
			"/jobs/"+id+"/cards",
		).Stored,
	)
	helper.linkEnds(id)
	for _, b := range []*tab{helper, helper.again()} {
		page := b.enter("/phone").Parts["page"]
		_, look, found := strings.Cut(page, `id="attention"`)
		require.True(t, found)
		look, _, _ = strings.Cut(look, "</section>")
		assert.Contains(t, look, "Ticked: Walk the room first")
		assert.Contains(t, look, "+3: Make the clusters for Garland")
		assert.Contains(t, look, "Reading room reopening")
		assert.NotContains(t, look, "Change of")
	}
}
