package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func full(h *handle)  { h.full = true }
func roomy(h *handle) { h.full = false }

// TestUnsavedFormGoesToTheServerOnce checks that a form that cannot be saved on the phone goes to the server at once
// and counts once.
func TestUnsavedFormGoesToTheServerOnce(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	card := at + "/cards/look"
	b.get(card)
	b.disk.set(full)
	d := b.post("n", at+"/do", "act", "note", "e", "card/look", "text", "the ladder is in the hall", "back", card)
	assert.False(t, d.Refused)
	assert.False(t, d.Stored, "the journal must keep it")
	assert.Contains(t, d.Parts["page"], "the ladder is in the hall")
	assert.Contains(t, d.Parts["page"], "This could not be saved on this phone")
	b.sent()
	b.disk.set(roomy)
	require.True(t, b.post("n2", at+"/do", "act", "add", "e", "card/look", "n", "1", "back", card).Stored)
	b.sent()
	adds, notes := 0, 0
	for _, r := range w.records(strings.TrimPrefix(at, "/jobs/")) {
		switch {
		case r.Kind == job.Add:
			adds++
		case r.Field == "note":
			notes++
		}
	}
	assert.Equal(t, 1, adds)
	assert.Equal(t, 1, notes)
}

// TestJournalKeepsFormsWhileNothingCanBeSaved checks that forms from the journal that cannot be saved stay in it for
// the next start, and that the page reports it.
func TestJournalKeepsFormsWhileNothingCanBeSaved(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	again := b.again()
	again.disk.set(full)
	d := again.tick("t", at, "card/look")
	assert.False(t, d.Refused)
	assert.False(t, d.Stored)
	assert.Contains(t, again.get(at + "/cards").Parts["state"], "Storage full")
	again.disk.set(roomy)
	assert.True(t, again.tick("t", at, "card/look").Stored)
}

// TestStorageErrorIsShownOnTheNextPage checks that a storage error is shown even if the user has already opened the
// next page.
func TestStorageErrorIsShownOnTheNextPage(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.get(at + "/cards")
	b.disk.set(full)
	b.number += 2
	n := b.number
	b.inbox <- device.Message{Type: "post", Number: n - 1, Path: at + "/do", ID: "t", Form: [][2]string{{"act",
		"tick"}, {"e", "card/look"}, {"back", at + "/cards"}}}
	b.inbox <- device.Message{Type: "get", Number: n, Path: at + "/pack"}
	said := false
	b.await("the requested page", func(d device.Drawing) bool {
		said = said || strings.Contains(d.Parts["page"], "could not be saved on this phone")
		return d.Number == n
	})
	assert.True(t, said)
}

// TestItemRemovedByOthersStaysOnTheScreen checks that a page that may be typed into is not redrawn when somebody else
// removes its item, and that the state line reports the removal.
func TestItemRemovedByOthersStaysOnTheScreen(t *testing.T) {
	const gone = "Somebody removed this"
	for _, x := range []struct{ name, page, act string }{
		{"the page itself", "/pieces/garland", "/pieces"},
		{"a row of a list", "/crew", "/crew"},
	} {
		t.Run(x.name, func(t *testing.T) {
			w := newWorld(t)
			b := w.phone(job.Owner, "Dora")
			b.enter("/")
			at := "/jobs/" + idOf(t, b.newJob("p"))
			page := b.get(at + x.page).Parts["page"]
			id, mark := "garland", "Garland"
			if x.act == "/crew" {
				_, rest, found := strings.Cut(page, ` id="item-`)
				require.True(t, found)
				id, _, _ = strings.Cut(rest, `"`)
				mark = ` id="form-` + id + `"`
			}
			b.sent()
			other := w.phone(job.Owner, "Ines")
			other.enter(at)
			act := x.act
			if act == "/pieces" {
				act = "/pieces/garland"
			}
			require.True(t, other.post("r", at+act, "act", "remove", "id", id).Stored)
			other.sent()
			b.say("wake")
			b.passTime(true)
			d := b.await("the message", func(d device.Drawing) bool {
				if d.Parts["page"] != "" {
					assert.Contains(t, d.Parts["page"], mark)
				}
				return strings.Contains(d.Parts["state"], gone)
			})
			assert.Equal(t, at+x.page, d.Path)
			assert.NotContains(t, b.get(at).Parts["state"], gone)
			b.get(at + "/pieces/nothing")
			assert.NotContains(t, b.redrawn().Parts["state"], gone, "that item never existed")
		})
	}
}
