package device_test

import (
	"encoding/json"
	"runtime"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const outPath = "/phone/out"

// twoShared returns an owner's phone with two jobs, both shared.
func twoShared(t *testing.T) (b *tab, first, second string) {
	w := newWorld(t)
	b = w.phone(job.Owner, "Dora")
	b.enter("/")
	first = idOf(t, b.newJob("p1"))
	second = idOf(t, b.newJob("p2"))
	b.passTime(true)
	b.look("all to be shared", func() bool { return b.get("/jobs/"+first).Waiting == 0 && unsent(b) == 0 })
	b.passTime(false)
	return b, first, second
}

// look repeats a check until it succeeds.
func (b *tab) look(what string, holds func() bool) {
	b.t.Helper()
	for !holds() {
		require.NoError(b.t, b.ctx.Err(), what)
		runtime.Gosched() // there may be one thread only
	}
}

func (b *tab) leave(path string, pairs ...string) device.Drawing {
	b.t.Helper()
	return b.post("leave"+b.newID(), path, pairs...)
}

func drawn(kind string) func(device.Drawing) bool {
	return func(d device.Drawing) bool { return d.Type == kind }
}

func says(text string) func(device.Drawing) bool {
	return func(d device.Drawing) bool { return strings.Contains(d.Parts["page"], text) }
}

// rowsOf lists the keys of a job's stored rows.
func rowsOf(b *tab, id string) (of []string) {
	for _, key := range b.disk.keys() {
		if strings.Contains(key, id) && !strings.HasPrefix(key, "off/") {
			of = append(of, key)
		}
	}
	return of
}

// TestSigningOutSendsWhatWaits checks that signing out sends waiting operations first, and is immediate if there are
// none.
func TestSigningOutSendsWhatWaits(t *testing.T) {
	for _, row := range []struct {
		name  string
		ticks int
	}{{"with nothing waiting", 0}, {"with ticks waiting", 3}} {
		t.Run(row.name, func(t *testing.T) {
			b, first, _ := twoShared(t)
			recorded := len(b.records(first))
			b.wire.set(offline)
			for i := range row.ticks {
				require.True(t, b.tick(b.newID(), "/jobs/"+first, "card/"+string(rune('a'+i))).Stored)
			}
			b.wire.set(func(x *wire) { x.offline = false })
			page := b.get(outPath).Parts["page"]
			assert.Contains(t, page, `action="/phone/out"`)
			d := b.leave(outPath)
			assert.True(t, d.Stored, "the journal must not repeat it")
			b.passTime(true)
			b.await("the phone to sign out", drawn("leave"))
			assert.Len(t, b.records(first), recorded+row.ticks)
		})
	}
}

// TestSigningOutWhileARequestHangs checks that a request that started before the sign-out may fail: the phone retries
// before it reports a problem.
func TestSigningOutWhileARequestHangs(t *testing.T) {
	b, first, _ := twoShared(t)
	recorded := len(b.records(first))
	hang := make(chan struct{})
	b.wire.set(func(x *wire) { x.hang = hang })
	require.True(t, b.tick("t1", "/jobs/"+first, "card/one").Stored)
	b.hold("a request to be in flight", func() bool { return !b.wire.idle() })
	b.wire.set(func(x *wire) { x.hang = nil }) // the request in flight still hangs
	b.leave(outPath)
	close(hang)
	b.passTime(true)
	b.await("the phone to sign out", drawn("leave"))
	assert.Len(t, b.records(first), recorded+1)
}

// TestSigningOutWithoutSignal checks that the page lists what would be lost, and that waiting, saving and signing out
// anyway all work.
func TestSigningOutWithoutSignal(t *testing.T) {
	b, first, second := twoShared(t)
	b.wire.set(offline)
	require.True(t, b.tick("t1", "/jobs/"+first, "card/one").Stored)
	require.True(t, b.tick("t2", "/jobs/"+first, "card/two").Stored)
	require.True(t,
		b.post("q", "/jobs/"+second+"/brief", "title", "Reading room, second floor", "contact.name", clientName).Stored)
	recorded := len(b.records(first))
	assert.Contains(t, b.get(outPath).Parts["page"], "Shared first: ")

	b.leave(outPath)
	stuck := b.await("the list of what is not shared", says("Not shared yet")).Parts["page"]
	assert.Contains(t, stuck, "No answer from the server.")
	assert.Contains(t, stuck, "2 ticks · Reading room reopening")
	assert.Contains(t, stuck, "Reading room, second floor")
	assert.Contains(t, stuck, `href="/phone/unsent"`)
	assert.Contains(t, stuck, "Sign out and lose this")
	assert.NotZero(t, unsent(b), "nothing may be deleted yet")

	file := b.get("/phone/unsent")
	require.Equal(t, "file", file.Type)
	var saved struct {
		Jobs []struct {
			Log, Title string
			Changes    []struct {
				What string
				Op   job.Op
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(file.Text), &saved))
	ticks := map[string]bool{}
	for _, part := range saved.Jobs {
		for _, change := range part.Changes {
			assert.NotEmpty(t, change.What)
			require.NoError(t, change.Op.Check())
			if part.Log == first && change.Op.Tick() {
				ticks[change.Op.Entity] = true
			}
		}
	}
	assert.Equal(t, map[string]bool{"card/one": true, "card/two": true}, ticks)
	assert.Contains(t, file.Text, clientName, "it must include the owner's private log")

	b.get("/phone") // stays signed in
	b.wire.set(func(x *wire) { x.offline = false })
	b.say("wake")
	b.sent()
	assert.Len(t, ticked(b.records(first)), 2)
	assert.Greater(t, len(b.records(first)), recorded)

	b.wire.set(offline)
	require.True(t, b.tick("t3", "/jobs/"+first, "card/three").Stored)
	b.leave(outPath, "all", "yes")
	b.await("the phone to sign out anyway", drawn("leave"))
}

// TestSigningOutNeedsTheServersAnswer checks that even with nothing to lose, the page says so if the server did not
// hear of the sign-out.
func TestSigningOutNeedsTheServersAnswer(t *testing.T) {
	for _, row := range []struct {
		name  string
		wire  func(*wire)
		tells string
	}{
		{"no signal", offline, "No answer from the server."},
		{"busy", func(x *wire) { x.status = 429 }, "The server is busy."},
		{"broken", func(x *wire) { x.status = 500 }, "The server answered 500."},
	} {
		t.Run(row.name, func(t *testing.T) {
			b, _, _ := twoShared(t)
			b.wire.set(row.wire)
			b.leave(outPath)
			page := b.await("the message that it failed", says("Not signed out yet")).Parts["page"]
			assert.Contains(t, page, row.tells)
			assert.Contains(t, page, "ends this phone’s access when it next has signal")
			b.wire.set(func(x *wire) { x.offline, x.status = false, 0 })
			b.leave(outPath)
			b.await("the phone to sign out", drawn("leave"))
		})
	}
}

// TestOpeningAnotherPageCancelsSigningOut opens another page while a sign-out waits.
func TestOpeningAnotherPageCancelsSigningOut(t *testing.T) {
	b, first, _ := twoShared(t)
	hang := make(chan struct{})
	b.wire.set(func(x *wire) { x.hang = hang })
	require.True(t, b.tick("t", "/jobs/"+first, "card/one").Stored)
	assert.Contains(t, b.leave(outPath).Parts["page"], "Sharing 1 tick…")
	b.get("/phone")
	b.wire.set(func(x *wire) { x.hang = nil })
	close(hang)
	b.say("wake")
	b.sent()
	assert.Equal(t, "drawn", b.get("/jobs/"+first).Type, "the core goes on")
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(b.records(first)))
}

// TestABorrowedPhoneSignsOut checks that a helper who borrows an owner's phone is told that the owner's work would be
// lost, without being shown it.
func TestABorrowedPhoneSignsOut(t *testing.T) {
	b, _, second := lent(t)
	join(b, second)
	b.say("wake")
	b.enter("/jobs/" + second + "/next")
	b.passTime(true)
	b.look("the helper to be known",
		func() bool { return strings.Contains(b.get("/phone").Parts["page"], "made here under another link") })
	b.leave(outPath)
	page := b.await("the list of what is not shared", says("Not shared yet")).Parts["page"]
	assert.Contains(t, page, "made here under another link")
	assert.NotContains(t, page, "second floor")
	assert.NotContains(t, b.get("/phone/unsent").Text, clientName)
}

// TestRemovingAJob checks that a removed job leaves no row on the phone, stays on the server and other devices, and
// comes back only on request.
func TestRemovingAJob(t *testing.T) {
	b, first, second := twoShared(t)
	b.wire.set(offline)
	require.True(t, b.tick("t", "/jobs/"+first, "card/one").Stored)
	b.wire.set(func(x *wire) { x.offline = false })
	at := "/jobs/" + first + "/remove"
	assert.Contains(t, b.get(at).Parts["page"], "Kept on the server")
	require.NotEmpty(t, rowsOf(b, first))
	b.leave(at)
	b.passTime(true)
	d := b.await("the job to go", drawn("removed"))
	b.passTime(false)
	assert.Equal(t, first, d.Name)
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(b.records(first)), "waiting operations must be sent")
	assert.Empty(t, rowsOf(b, first))
	assert.NotEmpty(t, rowsOf(b, second))
	phone := b.get(d.Path).Parts
	assert.Contains(t, phone["flash"], "is not on this phone any more")
	assert.Contains(t, phone["page"], "Not on this phone")
	assert.NotContains(t, b.get("/").Parts["page"], "/jobs/"+first)
	assert.Contains(t, b.get("/").Parts["page"], "1 not on this phone")

	asked := func() int {
		b.wire.mu.Lock()
		defer b.wire.mu.Unlock()
		n := 0
		for _, path := range b.wire.asked {
			if path == "/api/v1/me" {
				n++
			}
		}
		return n
	}
	again := b.again() // another tab, and one started later
	for _, one := range []*tab{b, again} {
		before := asked()
		one.say("wake")
		one.look("the server to name the jobs", func() bool { one.get("/phone"); return asked() > before })
		one.get("/")
		one.get("/")
		assert.Empty(t, rowsOf(b, first), "it is not pulled again")
	}
	require.True(t, again.post("b", "/phone", "act", "bring", "op", first).Stored)
	again.passTime(true)
	again.look("the job to be back", func() bool { return again.get("/jobs/"+first).Type == "drawn" })
	assert.NotContains(t, again.get("/phone").Parts["page"], "Not on this phone")
	assert.NotContains(t, strings.Join(b.disk.keys(), " "), "off/")
	assert.Contains(t, again.get("/").Parts["page"], "/jobs/"+first)
}

// TestRemovingAJobWithoutSignal checks that a job is removed offline only if nothing of it waits, or if the user
// accepts the loss.
func TestRemovingAJobWithoutSignal(t *testing.T) {
	b, first, second := twoShared(t)
	b.wire.set(offline)
	require.True(t, b.tick("t", "/jobs/"+first, "card/one").Stored)
	b.leave("/jobs/" + second + "/remove")
	b.await("a job with nothing waiting to go", drawn("removed"))
	b.get("/phone")
	at := "/jobs/" + first + "/remove"
	b.leave(at)
	page := b.await("the list of what is not shared", says("Not shared yet")).Parts["page"]
	assert.Contains(t, page, "1 tick · Reading room reopening")
	assert.Contains(t, page, `href="/phone/unsent?job=`+first+`"`)
	require.NotEmpty(t, rowsOf(b, first))
	b.leave(at, "all", "yes")
	b.await("the job to go anyway", drawn("removed"))
	assert.Empty(t, rowsOf(b, first))
	assert.Empty(t, rowsOf(b, second))
}

// TestRemovingAJobInTwoTabs checks that the other tab drops the job too and does not write it back.
func TestRemovingAJobInTwoTabs(t *testing.T) {
	b, first, _ := twoShared(t)
	other := b.again()
	other.enter("/jobs/" + first)
	b.leave("/jobs/" + first + "/remove")
	b.await("the job to go", drawn("removed"))
	other.await("the other tab to drop it", drawn("gone"))
	assert.Equal(t, "unknown", other.get("/jobs/"+first).Type)
	assert.Equal(t, "unknown", other.tick("t", "/jobs/"+first, "card/one").Type)
	assert.Empty(t, rowsOf(b, first))
}

// TestARemovedJobComesToAHelper checks that a job that the owner removed is shown to a helper who borrows the phone and
// has a link to it.
func TestARemovedJobComesToAHelper(t *testing.T) {
	b, first, _ := twoShared(t)
	b.leave("/jobs/" + first + "/remove")
	b.await("the job to go", drawn("removed"))
	join(b, first)
	b.say("wake")
	b.passTime(true)
	b.look("the job to come", func() bool { return b.get("/jobs/"+first+"/next").Type == "drawn" })
	assert.NotContains(t, b.get("/phone").Parts["page"], "Not on this phone")
	d := b.get("/jobs/" + first + "/remove") // a helper has one job, so removing it means signing out
	assert.Equal(t, outPath, d.Path)
}
