package device_test

import (
	"runtime"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAcceptedTickRedrawsOnlyTheStateLine checks that the server's answer to one's own tick redraws only the state
// line.
func TestAcceptedTickRedrawsOnlyTheStateLine(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.get(at + "/pack")
	b.redrawn()
	require.Positive(t, b.post("t", at+"/do", "act", "pack", "e", "pack/scissors", "n", "1", "back", at+"/pack").Waiting)
	d := b.await("the shared message", func(d device.Drawing) bool { return d.Waiting == 0 && d.Type == "drawn" })
	assert.Zero(t, d.Number)
	assert.Equal(t, at+"/pack", d.Path)
	assert.Len(t, d.Parts, 1)
	assert.Contains(t, d.Parts["state"], "All shared")
}

// TestATapIsAnsweredBeforeTheServersAnswerIsDrawn checks that a tap that arrives while the core is busy is answered
// before anything else is drawn, even if a server's answer waits too.
func TestATapIsAnsweredBeforeTheServersAnswerIsDrawn(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.get(at + "/pack")
	b.redrawn()
	hang := make(chan struct{})
	b.wire.set(func(x *wire) { x.hang = hang })
	pack := func(id string) device.Message {
		b.number++
		return device.Message{Type: "post", Number: b.number, ID: id, Path: at + "/do",
			Form: [][2]string{{"act", "pack"}, {"e", "pack/scissors"}, {"n", "1"}, {"back", at + "/pack"}}}
	}
	first := pack("t0")
	b.inbox <- first // its request hangs
	b.await("the first", func(d device.Drawing) bool { return d.Number == first.Number })

	stored := make(chan struct{}) // until then the core is busy with the second
	b.disk.set(func(h *handle) { h.slowKey, h.slowTo = "post/t1", stored })
	second, third := pack("t1"), pack("t2")
	b.inbox <- second
	b.inbox <- third
	for len(b.inbox) > 0 {
		runtime.Gosched()
		require.NoError(t, w.ctx.Err())
		runtime.Gosched() // there may be one thread only
	}
	close(hang)
	for range 10000 { // the third and the server's answer queue up
		runtime.Gosched()
	}
	close(stored)
	b.await("the second", func(d device.Drawing) bool { return d.Number == second.Number })
	d := b.await("the next drawing", func(device.Drawing) bool { return true })
	assert.Equal(t, third.Number, d.Number)
	b.await("the server's answer to be drawn", func(d device.Drawing) bool { return d.Number == 0 })
}
