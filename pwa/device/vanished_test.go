package device_test

import (
	"runtime"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// postID returns a post's id in the page's format. Each letter gives another post.
func postID(letter string) string { return strings.Repeat(letter, 26) }

// TestAClearedStorageIsWrittenAgain checks that a storage cleared under the running app is rewritten: unsent ticks, the
// user and the job, which can be read without signal after a restart.
func TestAClearedStorageIsWrittenAgain(t *testing.T) {
	for _, row := range []struct {
		name string
		find func(b *tab, at string) // makes the core notice
	}{
		{"at the next tick", func(b *tab, at string) {
			b.inbox <- device.Message{Type: "post", Number: 99, Path: at + "/do", ID: postID("c"), Form: [][2]string{{"act",
				"tick"}, {"e", "card/load"}, {"back", at + "/cards"}}}
		}},
		{"when some time has passed", func(b *tab, at string) { b.say("tick") }},
		{"when it is woken", func(b *tab, at string) { b.say("wake") }},
		{"when another tab writes", func(b *tab, at string) { b.say("others") }},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := newWorld(t)
			b := w.phone(job.Owner, "Dora")
			b.enter("/")
			id := idOf(t, b.newJob(postID("a")))
			at := "/jobs/" + id
			b.sent()
			b.get(at + "/cards")
			b.wire.set(offline)
			require.True(t, b.tick(postID("b"), at, "card/look").Stored)
			b.disk.clear()
			row.find(b, at)
			d := b.await("the message", func(d device.Drawing) bool {
				return strings.Contains(d.Parts["page"], "was cleared while the app was open")
			})
			assert.Contains(t, d.Parts["page"], "What was not shared is saved again")
			assert.GreaterOrEqual(t, d.Waiting, 1)
			assert.NotContains(t, d.Parts["page"], "You don’t have access")

			reopened := b.again()
			d = reopened.enter(at + "/cards")
			assert.Contains(t, d.Parts["page"], `aria-label="Done: Walk the room first" aria-pressed="true"`,
				"the tick must be there")
			assert.Contains(t, d.Parts["page"], "Put up Garland", "and the job with it")
			b.wire.set(online)
			reopened.say("wake")
			reopened.sent()
			assert.Equal(t, 1, ticked(w.records(id))["card/look"])
			noNumberTwice(t, w.records(id))
		})
	}
}

// TestFormThatFindsAClearedStorageCountsOnce checks that the action during which the core notices a cleared storage
// counts once.
func TestFormThatFindsAClearedStorageCountsOnce(t *testing.T) {
	for name, full := range map[string]bool{"cleared": false, "cleared and full": true} {
		t.Run(name, func(t *testing.T) {
			w := newWorld(t)
			b := w.phone(job.Owner, "Dora")
			b.enter("/")
			id := idOf(t, b.newJob(postID("a")))
			b.sent()
			b.wire.set(offline)
			b.disk.set(func(h *handle) { h.full = full })
			b.disk.clear()
			for n, post := range []string{"b", "c"} {
				d := b.post(postID(post), "/jobs/"+id+"/do", "act", "add", "e", "card/look", "n", "4")
				assert.Equal(t, !full, d.Stored)
				assert.Equal(t, n+1, d.Waiting)
				assert.NotContains(t, d.Parts["page"], "Nothing was changed")
			}
			b.wire.set(online)
			b.say("wake")
			b.sent()
			total := int64(0)
			for _, r := range w.records(id) {
				total += r.Delta
			}
			assert.EqualValues(t, 8, total)
			noNumberTwice(t, w.records(id))
		})
	}
}

// TestAClearedStorageOfTwoTabs checks that the unshared operations of two tabs arrive once, whichever tab notices the
// cleared storage first.
func TestAClearedStorageOfTwoTabs(t *testing.T) {
	for _, first := range []int{0, 1} {
		w := newWorld(t)
		one := w.phone(job.Owner, "Dora")
		one.enter("/")
		id := idOf(t, one.newJob(postID("a")))
		at := "/jobs/" + id
		one.sent()
		two := one.again()
		two.enter(at + "/cards")
		one.wire.set(offline)
		require.True(t, one.tick(postID("b"), at, "card/look").Stored)
		require.True(t, two.tick(postID("c"), at, "card/load").Stored)
		require.GreaterOrEqual(t, one.get(at+"/cards").Waiting, 2)
		one.disk.clear()
		tabs := []*tab{one, two}
		require.True(t, tabs[first].tick(postID("d"), at, "card/shop").Stored)
		require.True(t, tabs[1-first].tick(postID("e"), at, "card/tidy").Stored)
		one.wire.set(online)
		one.say("wake")
		one.sent()
		assert.Equal(t, map[string]int{"card/look": 1, "card/load": 1, "card/shop": 1, "card/tidy": 1}, ticked(w.records(id)))
		noNumberTwice(t, w.records(id))
	}
}

// TestAClearedStorageThatRefuses checks a storage that is cleared and then refuses: nothing is reported as kept, and
// with signal everything arrives.
func TestAClearedStorageThatRefuses(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	id := idOf(t, b.newJob(postID("a")))
	at := "/jobs/" + id
	b.sent()
	b.get(at + "/cards")
	b.wire.set(offline)
	require.True(t, b.tick(postID("b"), at, "card/look").Stored)
	b.disk.clear()
	b.disk.set(full)
	b.say("tick")
	d := b.await("the message", func(d device.Drawing) bool {
		return strings.Contains(d.Parts["page"], "was cleared while the app was open")
	})
	assert.Contains(t, d.Parts["page"], "Stay on this page until all is shared")
	assert.Contains(t, d.Parts["state"], "1 tick waits for signal")
	d = b.tick(postID("c"), at, "card/load")
	assert.False(t, d.Stored)
	assert.NotContains(t, d.Parts["state"], "kept")
	assert.NotEmpty(t, d.Copy, "for the journal")
	b.wire.set(online)
	b.say("wake")
	b.sent()
	assert.Equal(t, map[string]int{"card/look": 1, "card/load": 1}, ticked(w.records(id)))
	b.disk.set(roomy)
	b.say("tick")
	for len(b.disk.keys()) == 0 {
		require.NoError(t, w.ctx.Err(), "it is not written when there is room")
		runtime.Gosched() // there may be one thread only
	}
	require.Equal(t, "drawn", b.again().enter(at).Type)
}

// TestTheJournalRestoresAPost checks that the page's journal restores a post after the storage was cleared while the
// app was closed, whether or not the server has it, and that it counts once.
func TestTheJournalRestoresAPost(t *testing.T) {
	for _, row := range []struct {
		name   string
		shared bool // the server had it before the storage was cleared
		twice  bool // two tabs bring it
	}{{"never shared", false, false}, {"shared before", true, false}, {"by two tabs", false, true}} {
		t.Run(row.name, func(t *testing.T) {
			w := newWorld(t)
			b := w.phone(job.Owner, "Dora")
			b.enter("/")
			id := idOf(t, b.newJob(postID("a")))
			at := "/jobs/" + id
			b.sent()
			b.wire.set(offline)
			kept := b.post(postID("b"), at+"/do", "act", "add", "e", "card/look", "n", "4", "back", at+"/cards").Copy
			require.NotEmpty(t, kept)
			if row.shared {
				b.wire.set(online)
				b.say("wake")
				b.sent()
			}
			b.disk.set(func(h *handle) { h.left = 0 }) // the app is closed
			b.disk.clear()
			again := b.again()
			again.inbox <- device.Message{Type: "adopt", ID: postID("b"), Text: kept}
			if row.twice {
				b.again().inbox <- device.Message{Type: "adopt", ID: postID("b"), Text: kept}
			}
			if !row.shared {
				b.wire.set(offline)
				again.inbox <- device.Message{Type: "adopt", ID: postID("b"), Text: kept}
				assert.Contains(t, again.ask(device.Message{Type: "offline", Path: at}).Parts["state"], " waits on this phone",
					"the server has not confirmed the user yet")
			}
			b.wire.set(online)
			again.say("wake")
			again.await("the shared message",
				func(d device.Drawing) bool { return d.Type == "shared" && d.Text == postID("b") })
			total := int64(0)
			for _, r := range w.records(id) {
				if r.Kind == job.Add {
					total += r.Delta
				}
			}
			assert.EqualValues(t, 4, total)
			assert.Equal(t, "drawn", again.enter(at).Type)
		})
	}
}

// TestAPostIsSharedWhenTheServerHasIt checks that the journal drops a post only when the server has it, and that a post
// that is still stored is not added again.
func TestAPostIsSharedWhenTheServerHasIt(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob(postID("a")))
	b.sent()
	b.wire.set(offline)
	d := b.tick(postID("b"), at, "card/look")
	require.True(t, d.Stored)
	b.inbox <- device.Message{Type: "adopt", ID: postID("b"), Text: d.Copy}
	assert.Equal(t, d.Waiting, b.get(at+"/cards").Waiting, "it is here already")
	for len(b.drawings) > 0 {
		assert.NotEqual(t, "shared", (<-b.drawings).Type, "the server does not have it")
	}
	b.wire.set(online)
	b.say("wake")
	got := b.await("the shared message", func(d device.Drawing) bool { return d.Type == "shared" })
	assert.Equal(t, postID("b"), got.Text)
}
