package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
)

// TestFullServerIsReportedAndTicksStay checks that ticks refused by a server with a full disk stay on the phone, which
// shows the reason. When there is room again they are sent and the message disappears.
func TestFullServerIsReportedAndTicksStay(t *testing.T) {
	says := func(d device.Drawing) bool {
		return strings.Contains(d.Parts["state"], "server’s disk is full")
	}
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(func(w *wire) { w.syncStatus = 507 })
	d := b.newJob("p")
	id := idOf(t, d)
	full := b.await("the refusal", says)
	assert.Positive(t, full.Waiting)
	assert.Empty(t, w.records(id))
	b.wire.set(func(w *wire) { w.syncStatus = 0 })
	b.say("wake")
	assert.False(t, says(b.sent()))
	assert.NotEmpty(t, w.records(id))
	assert.False(t, says(b.get("/jobs/"+id)))
}
