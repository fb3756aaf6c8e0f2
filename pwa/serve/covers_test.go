package serve_test

import (
	"context"
	"fmt"
	"net/url"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// coverOf returns the cover of a job in the list, and whether it is still to come.
func (p *phone) coverOf(id string) (html string, later bool) {
	row := p.get("/").doc(p.t).Find("#job-" + id + " .thumbnail")
	require.Equal(p.t, 1, row.Length())
	html, err := row.Html()
	require.NoError(p.t, err)
	_, later = row.Attr("data-later")
	return html, later
}

// The list of jobs shows each job's room, as it is now. A job without pieces shows a plain shape.
func TestTheListShowsCovers(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	_, err := s.store.CreateJob(context.Background(), s.store.System("test"), "bare",
		[]job.Change{job.Put("brief", "title", "Nothing yet")})
	require.NoError(t, err)
	before, later := owner.coverOf("reading")
	assert.False(t, later)
	circles := owner.get("/").doc(t).Find("#job-reading .thumbnail circle")
	assert.Greater(t, circles.Length(), 20)
	assert.LessOrEqual(t, circles.Length(), 60)
	bare, later := owner.coverOf("bare")
	assert.Empty(t, bare)
	assert.False(t, later)

	require.Equal(t, 303, owner.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode)
	ticked, _ := owner.coverOf("reading")
	assert.Equal(t, before, ticked, "a tick changes no design")
	_, err = s.store.Write(context.Background(), s.store.System("test"), "reading",
		[]job.Change{job.Put("colour/coral", "value", "#123456")})
	require.NoError(t, err)
	after, _ := owner.coverOf("reading")
	assert.Contains(t, after, "#123456")
	other, _ := owner.coverOf("other")
	assert.Equal(t, before, other)
}

// A list of many jobs is not kept waiting for covers: those that are not drawn follow.
func TestCoversOfManyJobsFollow(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for i := range 12 {
		_, err := s.store.CreateJob(context.Background(), s.store.System("test"), fmt.Sprintf("many%d", i),
			[]job.Change{job.Put("brief", "title", fmt.Sprintf("Title %d", i)), job.Put("colour/c", "name", "Coral"),
				job.Put("piece/p", "kind", "garland"), job.Put("piece/p", "name", "Garland"),
				job.Put("piece/p", "length_mm", 3000), job.Put("piece/p", "recipe", "2x11@10"),
				job.Put("piece/p", "colours", []job.Share{{Colour: "c", Weight: 1}})})
		require.NoError(t, err)
	}
	doc := owner.get("/").doc(t)
	assert.Equal(t, 3, doc.Find(".jobrow .thumbnail:has(circle)").Length())
	assert.Equal(t, 11, doc.Find(".jobrow .thumbnail[data-later]").Length())
	serve.CoversDone(s.server)
	doc = owner.get("/").doc(t)
	assert.Equal(t, 14, doc.Find(".jobrow .thumbnail:has(circle)").Length())
	assert.Zero(t, doc.Find(".jobrow .thumbnail[data-later]").Length())
}
