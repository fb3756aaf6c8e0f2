package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The clock answers at once, is drawn again by itself a moment later, and comes to rest.
func TestTheClockIsWorkedOutFurtherByItself(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	at += "/clock"
	require.Contains(t, b.get(at).Parts["page"], "clockpicture")
	b.passTime(true)
	further := func(d device.Drawing) bool { return d.Number == 0 && d.Path == at }
	assert.Contains(t, b.await("a better clock", further).Parts["page"], "clockpicture")
	b.passTime(false)
	b.ringsMu.Lock()
	assert.Positive(t, b.paused, "after a pause, so that taps come first")
	b.ringsMu.Unlock()
	assert.Equal(t, "drawn", b.get(at).Type)
	assert.Zero(t, b.pauses(), "it has come to rest")
}

// What two phones tick is what the clock of each is about.
func TestTheClockFollowsTicksFromTwoPhones(t *testing.T) {
	w := newWorld(t)
	dora := w.phone(job.Owner, "Dora")
	dora.enter("/")
	at := "/jobs/" + idOf(t, dora.newJob("p"))
	dora.sent()
	ines := w.phone(job.Lead, "Ines")
	ines.enter(at + "/clock")
	for _, key := range []string{"card/shop", "card/unload", "card/look"} {
		require.Contains(t, ines.get(at + "/clock").Parts["page"], strings.TrimPrefix(key, "card/"))
	}
	dora.tick("t1", at, "card/shop")
	dora.sent()
	ines.tick("t2", at, "card/look")
	ines.sent()
	for _, b := range []*tab{dora, ines} {
		b.get(at + "/clock")
		b.say("wake")
		b.passTime(true)
		d := b.await("both ticks", func(d device.Drawing) bool {
			page := d.Parts["page"]
			return d.Path == at+"/clock" && page != "" && !strings.Contains(page, "cards/shop") && !strings.Contains(page, "cards/look")
		})
		b.passTime(false)
		assert.Contains(t, d.Parts["page"], "cards/unload")
	}
}
