package device_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const clientName = "Wilhelmina Overcliffe"

// lent returns an owner's phone with two jobs. The second has unsent operations, and the phone then joins it as a
// helper.
func lent(t *testing.T) (b *tab, first, second string) {
	w := newWorld(t)
	b = w.phone(job.Owner, "Dora")
	b.enter("/")
	first = idOf(t, b.newJob("p1"))
	second = idOf(t, b.newJob("p2"))
	b.passTime(true)
	for b.get("/jobs/"+first).Waiting > 0 { // the last operations may still be on their way
		require.NoError(t, w.ctx.Err())
		runtime.Gosched() // there may be one thread only
	}
	b.passTime(false)
	b.wire.set(offline)
	require.True(t,
		b.post("c", "/jobs/"+second+"/brief", "title", "Reading room, second floor", "contact.name", clientName).Stored)
	require.True(t, b.post("q", "/jobs/"+second+"/pieces/garland", "act", "copy", "id", "garland").Stored)
	return b, first, second
}

func join(b *tab, only string) {
	b.wire.set(func(x *wire) {
		x.offline, x.only = false, only
		x.session = server.Session{ID: "session-helper",
			Author: job.Author{Role: job.Helper, Name: "Ines", Link: "link-helper"}}
	})
}

func unsent(b *tab) int {
	n := 0
	for _, key := range b.disk.keys() {
		if strings.HasPrefix(key, "out/") {
			n++
		}
	}
	return n
}

// TestBorrowedPhone checks that an owner's phone that joins as a helper shows the helper nothing of the owner's, sends
// nothing of the owner's in the helper's name, and sends it when the owner is back.
func TestBorrowedPhone(t *testing.T) {
	b, first, second := lent(t)
	waiting := unsent(b)
	require.GreaterOrEqual(t, waiting, 3)
	recorded := len(b.records(second))
	join(b, second)
	b.say("wake")
	b.passTime(true)
	for !strings.Contains(b.get("/phone").Parts["page"], "made here under another link") {
		require.NoError(t, b.ctx.Err())
	}
	require.Equal(t, "drawn", b.enter("/jobs/"+second+"/next").Type)
	require.True(t, b.tick("t", "/jobs/"+second, "card/one").Stored)
	b.sent()
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(b.records(second)))
	assert.Len(t, b.records(second), recorded+1, "only the helper's tick is sent")
	assert.Equal(t, waiting, unsent(b), "the owner's operations must stay")
	assert.Equal(t, "unknown", b.get("/jobs/"+first).Type)
	phone := b.get("/phone").Parts["page"]
	assert.Contains(t, phone, "made here under another link")
	for _, path := range []string{"/", "/phone", "/jobs/" + second + "/next", "/jobs/" + second + "/cards", "/jobs/" +
		second + "/counts", "/jobs/" + second + "/history"} {
		d := b.get(path)
		assert.NotContains(t, fmt.Sprint(d.Parts), clientName, path)
		assert.NotContains(t, fmt.Sprint(d.Parts), "/jobs/"+first, path)
	}
	for _, key := range b.disk.keys() {
		assert.NotContains(t, key, first, "sent logs leave the phone")
	}

	b.wire.set(func(x *wire) {
		x.only = ""
		x.session = server.Session{ID: "session-Dora", Author: job.Author{Role: job.Owner, Name: "Dora", Link: "link-Dora"}}
	})
	b.say("wake")
	b.enter("/jobs/" + second + "/brief")
	for unsent(b) > 0 { // the phone reports nothing waiting until it knows its user, so wait twice
		b.sent()
	}
	assert.Contains(t, b.get("/jobs/" + second + "/brief").Parts["page"], clientName)
	for _, r := range append(b.records(second), b.records(second+sync.OwnSuffix)...) {
		if r.Entity != "card/one" {
			assert.Equal(t, job.Owner, r.Author.Role, "%s %s", r.Entity, r.Field)
		}
	}
}

// TestBorrowedPhoneBeforeTheServerAnswers checks that a core that starts on a helper's page shows nothing of the
// owner's, before and after the server has said who the user is.
func TestBorrowedPhoneBeforeTheServerAnswers(t *testing.T) {
	b, first, second := lent(t)
	join(b, second)
	b.wire.set(offline)
	b.wire.role = "helper"
	opened := b.again()
	for _, path := range []string{"/", "/jobs/" + first, "/jobs/" + second} {
		assert.Equal(t, "unknown", opened.get(path).Type, path)
	}
	opened.wire.role = ""
	assert.Equal(t, "unknown", opened.again().get("/").Type, "nor must the next core, which does not know the user")
}
