package device_test

import (
	"runtime"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// redrawn lets some seconds pass and returns the next redraw.
func (b *tab) redrawn() device.Drawing {
	b.t.Helper()
	for len(b.drawings) > 0 {
		<-b.drawings
	}
	b.say("tick")
	return b.await("a redraw", func(d device.Drawing) bool { return d.Number == 0 && d.Type == "drawn" && d.Title != "" })
}

// until requests a page and returns everything drawn up to and including the answer.
func (b *tab) until(path string) (all []device.Drawing) {
	b.t.Helper()
	b.number++
	n := b.number
	b.inbox <- device.Message{Type: "get", Number: n, Path: path}
	b.await("the answer for "+path, func(d device.Drawing) bool {
		all = append(all, d)
		return d.Number == n
	})
	return all
}

// TestNoticeStaysThroughRedraws checks that a redraw leaves the toast of the last tap alone, since it may be dismissed.
// The next page empties it.
func TestNoticeStaysThroughRedraws(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	d := b.tick("t", at, "card/look")
	require.Contains(t, d.Parts["flash"], `value="untick"`)
	for range 2 {
		again := b.redrawn()
		assert.Equal(t, d.Path, again.Path)
		assert.NotContains(t, again.Parts, "flash")
	}
	opened := b.get(d.Path)
	require.Contains(t, opened.Parts, "flash")
	assert.Empty(t, opened.Parts["flash"])
}

// TestFormErrorStaysThroughRedraws checks that an invalid form keeps what was typed and its error, and that a storage
// error stays as well.
func TestFormErrorStaysThroughRedraws(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.get(at + "/brief")
	refused := b.post("q", at+"/brief", "title", "")
	require.True(t, refused.Refused)
	d := b.redrawn()
	assert.NotContains(t, d.Parts, "page", "the form must not be overwritten")
	assert.Contains(t, d.Parts, "state")
	d = b.get(at + "/brief")
	assert.Contains(t, b.redrawn().Parts, "page", "the user has opened another page")

	b.disk.set(func(h *handle) { h.full = true })
	b.get(at + "/cards")
	require.False(t, b.tick("t", at, "card/look").Stored)
	assert.Contains(t, b.redrawn().Parts["page"], "could not be saved on this phone")
	b.disk.set(func(h *handle) { h.full = false })
	require.True(t, b.tick("t", at, "card/look").Stored)
	assert.NotContains(t, b.redrawn().Parts["page"], "could not be saved on this phone")
}

// TestTheServersPageStaysUntilThePhoneHasCaughtUp checks that the core does not redraw a page from the server until the
// phone has all its data.
func TestTheServersPageStaysUntilThePhoneHasCaughtUp(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	require.True(t,
		owner.post("c", "/jobs/"+id+"/brief", "title", "Reading room reopening", "contact.name", clientName).Stored)
	owner.sent()

	for _, path := range []string{"/", "/new", "/jobs/" + id, "/jobs/" + id + "/brief"} {
		t.Run(path, func(t *testing.T) {
			second := w.firstVisit(job.Owner, "Dora", id+sync.OwnSuffix)
			second.t = t
			require.Equal(t, "unknown", second.get(path).Type)
			for !strings.Contains(strings.Join(second.disk.keys(), " "), "rec/"+id+"/") { // the shared log has arrived
				require.NoError(t, w.ctx.Err())
				runtime.Gosched() // there may be one thread only
			}
			second.say("tick")
			for _, d := range second.until(path) {
				assert.NotEqual(t, "drawn", d.Type, "the owner's private log is missing, so the page must not be drawn")
			}
			assert.Equal(t, "drawn", second.get("/calc").Type, "pages that show no job need not wait")
			second.get(path)
			second.wire.set(func(x *wire) { x.refuses = "" })
			second.passTime(true)
			d := second.await("the page", func(d device.Drawing) bool { return d.Type == "drawn" && d.Path == path })
			if strings.HasSuffix(path, "/brief") {
				assert.Contains(t, d.Parts["page"], clientName)
			}
			assert.Equal(t, "drawn", second.get("/").Type)
		})
	}
}

// TestATickBeforeCatchingUpIsStored checks that a tick on a page from the server is stored on the phone as soon as the
// phone has the job.
func TestATickBeforeCatchingUpIsStored(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	second := w.firstVisit(job.Owner, "Dora", id+sync.OwnSuffix)
	for !strings.Contains(strings.Join(second.disk.keys(), " "), "rec/"+id+"/") {
		require.NoError(t, w.ctx.Err())
		runtime.Gosched() // there may be one thread only
	}
	second.wire.set(offline)
	d := second.tick("t", "/jobs/"+id, "card/look")
	assert.True(t, d.Stored)
	assert.Equal(t, "drawn", d.Type)
}

// TestSharedMeansEveryJob checks that "All shared" appears only after every job was synced.
func TestSharedMeansEveryJob(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	other := idOf(t, owner.newJob("p"))
	id := idOf(t, owner.newJob("q"))
	owner.sent()
	second := w.phone(job.Owner, "Dora")
	second.wire.set(func(x *wire) { x.refuses = id })
	second.enter("/calc")
	for !strings.Contains(strings.Join(second.disk.keys(), " "), "rec/"+other+"/") { // the other job has arrived
		require.NoError(t, w.ctx.Err())
		runtime.Gosched() // there may be one thread only
	}
	for _, d := range second.until("/calc") {
		assert.NotContains(t, d.Parts["state"], "All shared")
	}
	second.wire.set(func(x *wire) { x.refuses = "" })
	second.passTime(true)
	second.await("all shared", func(d device.Drawing) bool { return strings.Contains(d.Parts["state"], "All shared") })
}

// TestNoSignalIsShownOnlyAfterAFailedRequest checks that the page says nothing about the signal before a request has
// succeeded or failed.
func TestNoSignalIsShownOnlyAfterAFailedRequest(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	id := idOf(t, b.newJob("p"))
	b.passTime(true)
	b.await("all shared", func(d device.Drawing) bool { return strings.Contains(d.Parts["state"], "All shared") })
	b.passTime(false)
	hang := make(chan struct{})
	b.wire.set(func(x *wire) { x.hang = hang })
	again := b.again()
	state := again.get("/jobs/" + id).Parts["state"]
	assert.Contains(t, state, "All shared")
	assert.NotContains(t, state, "No signal")
	phone := again.get("/phone").Parts["page"]
	assert.Contains(t, phone, "not tried yet")
	again.say("wake")
	close(hang)
	again.await("no signal", func(d device.Drawing) bool { return strings.Contains(d.Parts["state"], "No signal") })
}

// TestNoSignalPageDoesNotReloadForever checks that a page shown in place of an unavailable one is not reloaded:
// reloading would give the same page.
func TestNoSignalPageDoesNotReloadForever(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	b := w.phone(job.Owner, "Dora")
	b.enter("/calc")
	b.wire.set(offline)
	for _, path := range []string{"/jobs/nothere?from=server", "/jobs/nothere"} {
		require.Equal(t, "unknown", b.get(path).Type)
		require.Equal(t, "drawn", b.ask(device.Message{Type: "offline", Path: path}).Type)
		for range 3 {
			b.say("tick")
		}
		for _, d := range b.until("/scan") {
			assert.NotEqual(t, "gone", d.Type)
		}
	}
	b.get("/jobs/" + id + "?from=server")
	b.ask(device.Message{Type: "offline", Path: "/jobs/" + id + "?from=server"})
	b.wire.set(online)
	b.say("wake")
	d := b.await("the page itself, once it is available", func(d device.Drawing) bool {
		return d.Type == "drawn" && strings.HasPrefix(d.Path, "/jobs/"+id) && strings.Contains(d.Title, "Reading room")
	})
	assert.Equal(t, "/jobs/"+id+"?from=server", d.Path, "it must have the browser's address")
}

// TestStateLineNamesWhatWaits checks that the state line tells ticks from other changes.
func TestStateLineNamesWhatWaits(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.wire.set(offline)
	require.Contains(t, b.tick("t", at, "card/look").Parts["state"], "1 tick waits")
	d := b.post("c", at+"/do", "act", "add", "e", "card/make/garland", "n", "2", "back", at)
	require.Contains(t, d.Parts["state"], "2 ticks wait")
	d = b.post("n", at+"/do", "act", "note", "e", "card/look", "text", "Mind the lamp", "back", at)
	assert.Contains(t, d.Parts["state"], "3 changes wait")
}

// TestARewindRenewsThePlan checks that a design change that a restored server has lost disappears from the plan as well
// as from the job.
func TestARewindRenewsThePlan(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	at := "/jobs/" + id
	helper := w.phone(job.Helper, "Ines")
	before := figures(helper.enter(at + "/counts").Parts["page"])
	w.mu.Lock()
	backup := w.ledgers[id].Clone()
	w.mu.Unlock()
	require.True(t, owner.post("q", at+"/pieces/garland", "act", "copy", "id", "garland").Stored)
	owner.sent()
	helper.say("wake")
	helper.await("the second garland", func(d device.Drawing) bool {
		return d.Type == "drawn" && !assert.ObjectsAreEqual(before, figures(d.Parts["page"]))
	})

	owner.wire.set(offline) // or it would send the change again

	w.mu.Lock()
	restored := memory.New(id, "second", []byte("another key of thirty-two bytes.."), w.clock.Load())
	recs, err := backup.Read(1, sync.MaxHeal)
	require.NoError(t, err)
	_, err = server.Serve(restored, owner.wire.session,
		sync.Request{V: sync.WireVersion, Device: "backup", Now: w.clock.Load(), Heal: recs}, w.clock.Load())
	require.NoError(t, err)
	w.ledgers[id] = restored
	w.mu.Unlock()
	helper.say("wake")
	d := helper.await("the plan without it", func(d device.Drawing) bool {
		return d.Type == "drawn" && assert.ObjectsAreEqual(before, figures(d.Parts["page"]))
	})
	assert.Equal(t, at+"/counts", d.Path)
	assert.Equal(t, before, figures(helper.get(at + "/counts").Parts["page"]))
}

// TestATickIsCountedOnce checks that a tick that also stores a count is two operations but one tick.
func TestATickIsCountedOnce(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.wire.set(offline)
	d := b.tick("t", at, "card/shop")
	assert.Equal(t, 1, d.Waiting)
	assert.Contains(t, d.Parts["state"], "1 tick waits on this phone")
}
