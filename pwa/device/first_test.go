package device_test

import (
	"runtime"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The server's word for an own tick changes nothing on the page but how the phone stands, so that is all that is drawn.
func TestAnOwnTickThatIsTakenDrawsOnlyTheStateLine(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.get(at + "/pack")
	b.redrawn()
	require.Positive(t, b.post("t", at+"/do", "act", "pack", "e", "pack/scissors", "n", "1", "back", at+"/pack").Waiting)
	d := b.await("word that it is shared", func(d device.Drawing) bool { return d.Waiting == 0 && d.Type == "drawn" })
	assert.Zero(t, d.Number)
	assert.Equal(t, at+"/pack", d.Path)
	assert.Len(t, d.Parts, 1)
	assert.Contains(t, d.Parts["state"], "All shared")
}

// A tap that comes while the core is at work is answered before anything else is drawn, though an answer of the server
// waits too.
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
	b.inbox <- first // its exchange hangs
	b.await("the first", func(d device.Drawing) bool { return d.Number == first.Number })

	stored := make(chan struct{}) // the core stands still over the second until then
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
	for range 10000 { // the third and the server's answer come as far as they can
		runtime.Gosched()
	}
	close(stored)
	b.await("the second", func(d device.Drawing) bool { return d.Number == second.Number })
	d := b.await("whatever comes next", func(device.Drawing) bool { return true })
	assert.Equal(t, third.Number, d.Number)
	b.await("what the answer changes", func(d device.Drawing) bool { return d.Number == 0 })
}
