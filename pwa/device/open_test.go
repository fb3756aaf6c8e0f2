package device_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAnInstalledAppStartsWithoutSignal opens the installed app's start address, which has a code, without signal. The
// jobs are shown.
func TestAnInstalledAppStartsWithoutSignal(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.newJob("p")
	d := b.ask(device.Message{Type: "offline", Path: "/j/open?i=spent&from=server"})
	require.Equal(t, "drawn", d.Type)
	assert.Equal(t, "/", d.Path)
	assert.NotContains(t, d.Parts["page"], "No signal")
	assert.Equal(t, "unknown", b.get("/j/open?i=new").Type, "with signal the server decides")
}
