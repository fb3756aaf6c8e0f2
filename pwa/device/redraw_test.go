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

// redrawn lets some seconds pass and gives the page that is drawn then.
func (b *tab) redrawn() device.Drawing {
	b.t.Helper()
	for len(b.drawings) > 0 {
		<-b.drawings
	}
	b.say("tick")
	return b.await("a redraw", func(d device.Drawing) bool { return d.Number == 0 && d.Type == "drawn" && d.Title != "" })
}

// until asks for a page and gives everything that was drawn up to the answer, and with it.
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

// What a page says of the last tap, and the way to take that back, stay until somebody goes on.
func TestWhatAPageSaysStaysThroughRedraws(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	d := b.tick("t", at, "card/look")
	require.Contains(t, d.Parts["page"], `id="flash"`)
	require.Contains(t, d.Parts["page"], `value="untick"`)
	for range 2 {
		again := b.redrawn()
		assert.Equal(t, d.Path, again.Path)
		assert.Equal(t, 1, strings.Count(again.Parts["page"], `id="flash"`))
		assert.Contains(t, again.Parts["page"], `value="untick"`)
	}
	assert.NotContains(t, b.get(d.Path).Parts["page"], `id="flash"`)
	assert.NotContains(t, b.redrawn().Parts["page"], `id="flash"`)
}

// A form that may not stand as it is stays, with what was typed and why, and so does word that nothing could be saved.
func TestWhatWasWrongStaysThroughRedraws(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.get(at + "/brief")
	refused := b.post("q", at+"/brief", "title", "")
	require.True(t, refused.Refused)
	d := b.redrawn()
	assert.NotContains(t, d.Parts, "page", "nothing is drawn over it")
	assert.Contains(t, d.Parts, "state")
	d = b.get(at + "/brief")
	assert.Contains(t, b.redrawn().Parts, "page", "somebody went on")

	b.disk.set(func(h *handle) { h.full = true })
	b.get(at + "/cards")
	require.False(t, b.tick("t", at, "card/look").Stored)
	assert.Contains(t, b.redrawn().Parts["page"], "could not be saved on this phone")
	b.disk.set(func(h *handle) { h.full = false })
	require.True(t, b.tick("t", at, "card/look").Stored)
	assert.NotContains(t, b.redrawn().Parts["page"], "could not be saved on this phone")
}

// A page that the server drew is not drawn over until the phone knows of everything on it.
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
			for !strings.Contains(strings.Join(second.disk.keys(), " "), "rec/"+id+"/") { // the shared log has come
				require.NoError(t, w.ctx.Err())
				runtime.Gosched() // there may be one thread only
			}
			second.say("tick")
			for _, d := range second.until(path) {
				assert.NotEqual(t, "drawn", d.Type, "the owner's own log has not: half of it must not be drawn")
			}
			assert.Equal(t, "drawn", second.get("/calc").Type, "what shows no job is free")
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

// A tick on a page that the server drew is stored here, caught up or not, once the phone holds the job.
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

// "All shared" is said only once every job was exchanged.
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
	for !strings.Contains(strings.Join(second.disk.keys(), " "), "rec/"+other+"/") { // the other job has come
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

// Of the signal nothing is said before the server was asked and has answered, or has not.
func TestNoSignalIsSaidOnlyWhenItIsKnown(t *testing.T) {
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

// On a page that stands in for one that is not here, the phone stays: loading it again would bring the same.
func TestNoSignalIsNoReloadLoop(t *testing.T) {
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
	d := b.await("the page itself, once it is here", func(d device.Drawing) bool {
		return d.Type == "drawn" && strings.HasPrefix(d.Path, "/jobs/"+id) && strings.Contains(d.Title, "Reading room")
	})
	assert.Equal(t, "/jobs/"+id+"?from=server", d.Path, "it belongs where the browser is")
}

// The state line calls changes of a job changes, and ticks ticks.
func TestWaitingSaysWhatWaits(t *testing.T) {
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

// A server that went back in time and did not take a design change back: the plan is without it, as the job is.
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

	owner.wire.set(offline) // or it would give the change back

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

// A tick of a card that remembers for how much it stands is two operations and one tick.
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
