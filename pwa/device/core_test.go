package device_test

import (
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func offline(w *wire) { w.offline = true }
func online(w *wire)  { w.offline = false }

func idOf(t *testing.T, d device.Drawing) string {
	t.Helper()
	id, ok := strings.CutPrefix(d.Path, "/jobs/")
	require.True(t, ok, "the new job must be on the screen, not %q (%s)", d.Path, d.Parts["page"])
	return id
}

// ticked counts the ticks in records by entity.
func ticked(recs []job.Rec) map[string]int {
	found := map[string]int{}
	for _, r := range recs {
		if r.Field == "done" {
			found[r.Entity]++
		}
	}
	return found
}

func noNumberTwice(t testing.TB, recs []job.Rec) {
	t.Helper()
	seen := map[string]string{}
	for _, r := range recs {
		key := fmt.Sprint(r.Device, "/", r.Number)
		assert.Empty(t, seen[key], "number %s is used twice", key)
		seen[key] = r.ID
	}
}

func TestNewJobOfflineWaitsAndGoesOut(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(offline)
	d := b.newJob("p1")
	id := idOf(t, d)
	assert.True(t, d.Stored)
	assert.Positive(t, d.Waiting)
	assert.Contains(t, d.Title, "Reading room reopening")
	assert.Empty(t, w.records(id))
	d = b.tick("p2", "/jobs/"+id, "card/one")
	assert.True(t, d.Stored)
	b.wire.set(online)
	b.say("wake")
	b.sent()
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(w.records(id)))
	noNumberTwice(t, append(w.records(id), w.records(id+sync.OwnSuffix)...))
}

func TestRepeatedPostIsStoredOnce(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(offline)
	id := idOf(t, b.newJob("p1"))
	first := b.tick("p2", "/jobs/"+id, "card/one")
	again := b.tick("p2", "/jobs/"+id, "card/one")
	assert.True(t, again.Stored)
	assert.Equal(t, first.Waiting, again.Waiting)
	reopened := b.again()
	replayed := reopened.tick("p2", "/jobs/"+id, "card/one") // from the journal, before any page is requested
	assert.True(t, replayed.Stored)
	assert.Equal(t, first.Waiting, reopened.get("/jobs/"+id).Waiting)
}

func TestTwoTabsLoseNothing(t *testing.T) {
	w := newWorld(t)
	one := w.phone(job.Owner, "Dora")
	one.enter("/")
	one.wire.set(offline)
	id := idOf(t, one.newJob("p"))
	two := one.again()
	want := map[string]int{}
	for i := range 20 {
		b := one
		if i%2 == 1 {
			b = two
		}
		card := fmt.Sprintf("card/c%d", i)
		require.True(t, b.tick("tick"+card, "/jobs/"+id, card).Stored, card)
		want[card] = 1
	}
	one.wire.set(online)
	one.say("wake")
	two.say("wake")
	one.sent()
	two.sent()
	assert.Equal(t, want, ticked(w.records(id)))
	noNumberTwice(t, append(w.records(id), w.records(id+sync.OwnSuffix)...))
}

func TestHelperGetsTheJobAndNeverTheOwnLog(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	helper := w.phone(job.Helper, "Ines")
	helper.enter("/jobs/" + id)
	require.True(t, helper.tick("t", "/jobs/"+id, "card/one").Stored)
	helper.sent()
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(w.records(id)))
	for _, key := range helper.disk.keys() {
		assert.NotContains(t, key, id+sync.OwnSuffix)
	}
	helper.wire.mu.Lock()
	defer helper.wire.mu.Unlock()
	require.NotEmpty(t, helper.wire.asked)
	for _, path := range helper.wire.asked {
		assert.NotContains(t, path, "/own/", "only the owner's phone may request it")
	}
}

// TestRefusedWriteIsReportedAndNotCalledStored checks that a storage error is reported at once. The action stays on the
// page, is not reported as stored, and is written when there is room.
func TestRefusedWriteIsReportedAndNotCalledStored(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(offline)
	at := "/jobs/" + idOf(t, b.newJob("p"))
	before := b.get(at)
	b.disk.set(func(h *handle) { h.full = true })
	d := b.tick("t", at, "card/one")
	assert.False(t, d.Stored)
	assert.False(t, d.Refused, "the form is valid")
	assert.Equal(t, before.Waiting+1, d.Waiting, "it waits")
	assert.Contains(t, d.Parts["page"], "could not be saved on this phone")
	assert.Contains(t, d.Parts["state"], "Storage full")
	assert.NotContains(t, strings.Join(b.disk.texts(), " "), "card/one")
	b.disk.set(func(h *handle) { h.full = false })
	d = b.tick("t", at, "card/one")
	assert.True(t, d.Stored)
	assert.Equal(t, before.Waiting+1, d.Waiting)
	assert.Contains(t, strings.Join(b.disk.texts(), " "), "card/one")
	assert.NotContains(t, d.Parts["state"], "Storage full")
}

func TestCommitWhoseAnswerIsLostIsNotWrittenTwice(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(offline)
	at := "/jobs/" + idOf(t, b.newJob("p"))
	before := b.get(at).Waiting
	b.disk.set(func(h *handle) { h.silent = true })
	assert.False(t, b.tick("t", at, "card/one").Stored)
	d := b.tick("t", at, "card/one")
	assert.True(t, d.Stored)
	assert.Equal(t, before+1, d.Waiting)
}

func TestKilledBetweenCommits(t *testing.T) {
	for left := 1; left <= 5; left++ {
		t.Run(fmt.Sprintf("after %d", left), func(t *testing.T) {
			w := newWorld(t)
			b := w.phone(job.Owner, "Dora")
			b.enter("/")
			b.wire.set(offline)
			id := idOf(t, b.newJob("p"))
			b.disk.set(func(h *handle) { h.left = left })
			want := map[string]int{}
			for i := range 5 {
				card := fmt.Sprintf("card/c%d", i)
				if b.tick(card, "/jobs/"+id, card).Stored {
					want[card] = 1
				}
			}
			assert.LessOrEqual(t, len(want), left)
			reopened := b.again()
			reopened.enter("/jobs/" + id)
			b.wire.set(online)
			reopened.say("wake")
			reopened.sent()
			assert.Equal(t, want, ticked(w.records(id)))
			noNumberTwice(t, w.records(id))
		})
	}
}

func TestHangingNetworkStillDraws(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(func(w *wire) { w.hang = make(chan struct{}) })
	d := b.newJob("p")
	at := "/jobs/" + idOf(t, d)
	assert.True(t, d.Stored)
	assert.True(t, b.tick("t", at, "card/one").Stored)
	assert.Equal(t, "drawn", b.get(at+"/counts").Type)
	close(b.wire.hang)
}

func TestRefusedRequestsStayOnThePhone(t *testing.T) {
	for _, status := range []int{401, 429, 500} {
		t.Run(fmt.Sprint(status), func(t *testing.T) {
			w := newWorld(t)
			b := w.phone(job.Owner, "Dora")
			b.enter("/")
			b.wire.set(func(w *wire) { w.status = status })
			d := b.newJob("p")
			id := idOf(t, d)
			after := b.await("the refusal", func(d device.Drawing) bool { return d.Number == 0 })
			assert.Equal(t, d.Waiting, after.Waiting)
			assert.Equal(t, "drawn", b.again().enter("/jobs/"+id).Type, "the phone still shows it when opened again")
			b.wire.set(func(w *wire) { w.status = 0 })
			b.say("wake")
			b.sent()
			assert.NotEmpty(t, w.records(id))
		})
	}
}

func TestLostAnswersCauseNoDuplicates(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	id := idOf(t, b.newJob("p"))
	b.sent()
	b.wire.set(func(w *wire) { w.lose = 3 })
	require.True(t, b.tick("t", "/jobs/"+id, "card/one").Stored)
	b.await("an answer to be lost", func(d device.Drawing) bool { return d.Number == 0 && d.Waiting > 0 })
	b.wire.set(func(w *wire) { w.lose = 0 })
	b.say("wake")
	b.sent()
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(w.records(id)))
}

func TestUnknownAndNoSignal(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	for _, path := range []string{"/j", "/scan", "/jobs/nothere", "/jobs/nothere/cards", "no-slash", "/%zz"} {
		assert.Equal(t, "unknown", b.get(path).Type, path)
	}
	d := b.ask(device.Message{Type: "offline", Path: "/jobs/nothere"})
	assert.Equal(t, "drawn", d.Type)
	assert.Contains(t, d.Title, "No signal")
}

func TestClosedLinkSubmitsWorkAndDropsTheJob(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	helper := w.phone(job.Helper, "Ines")
	helper.enter("/jobs/" + id)
	helper.wire.set(offline)
	require.True(t, helper.tick("t", "/jobs/"+id, "card/one").Stored)
	helper.linkEnds(id)
	for _, key := range helper.disk.keys() {
		assert.False(t,
			strings.HasPrefix(key, "rec/"+id) || strings.HasPrefix(key, "out/"+id) || strings.HasPrefix(key, "log/"+id), key)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	require.Len(t, w.ledgers[id].Quarantine(), 1)
	assert.Equal(t, "card/one", w.ledgers[id].Quarantine()[0].Op.Entity)
}

// TestAnotherTabsDesignChangeRenewsThePlan checks that one tab's design change shows in the other tab's plan.
func TestAnotherTabsDesignChangeRenewsThePlan(t *testing.T) {
	w := newWorld(t)
	one := w.phone(job.Owner, "Dora")
	one.enter("/")
	one.wire.set(offline)
	at := "/jobs/" + idOf(t, one.newJob("p"))
	two := one.again()
	first := two.get(at + "/counts").Parts["page"]
	require.Equal(t, first, one.get(at + "/counts").Parts["page"])
	d := one.post("q", at+"/pieces/garland", "act", "copy", "id", "garland")
	require.True(t, d.Stored)
	want := one.get(at + "/counts").Parts["page"]
	require.NotEqual(t, first, want, "%s", d.Parts["page"])
	assert.Equal(t, want, two.get(at + "/counts").Parts["page"])
}
