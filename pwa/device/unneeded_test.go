package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
)

// TestTwoPhonesSetALineAside checks that a helper without signal sets a line aside, that the owner's phone hears of it,
// and that the owner's undo reaches the helper.
func TestTwoPhonesSetALineAside(t *testing.T) {
	w := newWorld(t)
	dora := w.phone(job.Owner, "Dora")
	dora.enter("/")
	at := "/jobs/" + idOf(t, dora.newJob("p"))
	dora.sent()
	ines := w.phone(job.Helper, "Ines")
	ines.enter(at + "/pack")
	aside := func(d device.Drawing) bool { return strings.Contains(d.Parts["page"], `id="unneeded"`) }
	ines.wire.set(offline)
	ines.post("u1", at+"/do", "act", "unneeded", "e", "pack/supply/shine-spray", "back", at+"/pack")
	assert.True(t, aside(ines.get(at+"/pack")), "without signal")
	assert.False(t, aside(dora.get(at+"/pack")))
	ines.wire.set(online)
	ines.say("wake")
	ines.sent()
	follow := func(b *tab, want bool) {
		b.get(at + "/pack")
		b.say("wake")
		b.await("the line", func(d device.Drawing) bool {
			return d.Path == at+"/pack" && d.Parts["page"] != "" && aside(d) == want
		})
	}
	follow(dora, true)
	dora.post("u2", at+"/do", "act", "needed", "e", "pack/supply/shine-spray", "back", at+"/pack")
	dora.sent()
	follow(ines, false)
}
