package device_test

import (
	"runtime"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRefusedFormIsNotStored checks that an invalid form is drawn again and not reported as saved.
func TestRefusedFormIsNotStored(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	d := b.post("p", "/new", "title", "Fair", "date", "no day")
	assert.False(t, d.Stored)
	assert.True(t, d.Refused)
	assert.Contains(t, d.Parts["page"], "data-bad")
	d = b.newJob("q")
	assert.True(t, d.Stored)
	assert.False(t, d.Refused)
}

// TestRefusedDesignChangeIsRemovedFromThePlan checks that a design change that the server refuses is removed from the
// plan as well as from the job.
func TestRefusedDesignChangeIsRemovedFromThePlan(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	at := "/jobs/" + id
	owner.sent()
	lead := w.phone(job.Lead, "Ines")
	lead.enter(at)
	before := lead.get(at + "/counts").Parts["page"]
	lead.wire.set(offline)
	require.True(t, lead.post("q", at+"/pieces/garland", "act", "copy", "id", "garland").Stored)
	require.NotEqual(t, figures(before), figures(lead.get(at + "/counts").Parts["page"]))
	lead.wire.set(func(x *wire) { x.offline, x.session.Author.Role = false, job.Helper }) // no longer a lead
	lead.say("wake")
	lead.await("the refusal", func(d device.Drawing) bool { return d.Number == 0 && d.Type == "drawn" && d.Waiting == 0 })
	assert.Equal(t, figures(before), figures(lead.get(at + "/counts").Parts["page"]))
}

// figures lists the numbers on a page in order. They are the same for every role.
func figures(page string) []string {
	var found []string
	for _, part := range strings.Split(page, ">") {
		text, _, _ := strings.Cut(part, "<")
		found = append(found, strings.FieldsFunc(text, func(r rune) bool { return r < '0' || r > '9' })...)
	}
	return found
}

// TestAClosedJobIsDroppedWhenTheStorageIsBack checks that a closed job is dropped later if the storage refuses at
// first.
func TestAClosedJobIsDroppedWhenTheStorageIsBack(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	helper := w.phone(job.Helper, "Ines")
	helper.enter("/jobs/" + id)
	helper.disk.set(func(h *handle) { h.holds = true })
	helper.wire.set(func(x *wire) { x.session.Closed, x.session.ClosedAt = sync.Revoked, x.clock.Load()-1 })
	helper.say("wake")
	helper.await("the page to go", func(d device.Drawing) bool { return d.Type == "gone" })
	require.Contains(t, strings.Join(helper.disk.keys(), " "), "log/"+id)
	helper.disk.set(func(h *handle) { h.holds = false })
	helper.say("tick")
	for strings.Contains(strings.Join(helper.disk.keys(), " "), "log/"+id) {
		require.NoError(t, w.ctx.Err(), "the log is still in the storage")
		runtime.Gosched() // there may be one thread only
	}
}

// TestReloadKeepsThePause checks that a tab keeps the pause that a busy server asked for when another tab's write makes
// it reload the storage.
func TestReloadKeepsThePause(t *testing.T) {
	w := newWorld(t)
	one := w.phone(job.Owner, "Dora")
	one.enter("/")
	one.wire.set(offline)
	at := "/jobs/" + idOf(t, one.newJob("p"))
	require.True(t, one.tick("t", at, "card/one").Stored)
	syncs := func() int {
		one.wire.mu.Lock()
		defer one.wire.mu.Unlock()
		n := 0
		for _, path := range one.wire.asked {
			if strings.HasSuffix(path, "/sync") {
				n++
			}
		}
		return n
	}
	for one.pauses() == 0 || syncs() < 1 { // the logs were tried and are paused
		require.NoError(t, w.ctx.Err())
		runtime.Gosched() // there may be one thread only
	}
	before := syncs()
	for range 20 {
		one.say("others")
		one.get(at)
	}
	assert.Equal(t, before, syncs())
}

// TestAJobNeverPulledIsTriedAgain checks that a known job that was never pulled is tried again after its pause, without
// a wake.
func TestAJobNeverPulledIsTriedAgain(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	session := server.Session{ID: "session-Ines", Author: job.Author{Role: job.Helper, Name: "Ines", Link: "link-Ines"}}
	helper := w.open(&handle{disk: &disk{rows: map[string]string{}}, left: -1},
		&wire{world: w, session: session, syncStatus: 503}, &[]*tab{})
	require.Equal(t, "unknown", helper.get("/jobs/"+id).Type)
	for helper.pauses() == 0 {
		require.NoError(t, w.ctx.Err())
		runtime.Gosched() // there may be one thread only
	}
	helper.wire.set(func(x *wire) { x.syncStatus = 0 })
	helper.passTime(true)
	assert.Equal(t, "drawn",
		helper.await("the job", func(d device.Drawing) bool { return d.Type == "drawn" && d.Path == "/jobs/"+id }).Type)
}
