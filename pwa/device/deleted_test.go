package device_test

import (
	"strings"
	"testing"

	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestADeletedJobLeavesThePhone deletes a job on the server: with nothing waiting here, with ticks that the
// server still takes, and after it was removed for good. Nothing that was not shared is dropped.
func TestADeletedJobLeavesThePhone(t *testing.T) {
	for _, row := range []struct {
		name  string
		ticks int
		gone  bool
		stays bool
	}{
		{"with nothing waiting", 0, false, false},
		{"with ticks waiting", 2, false, false},
		{"gone for good, with nothing waiting", 0, true, false},
		{"gone for good, with ticks waiting", 2, true, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			b, first, second := twoShared(t)
			recorded := len(b.records(first))
			b.wire.set(offline)
			for i := range row.ticks {
				require.True(t, b.tick(b.newID(), "/jobs/"+first, "card/"+string(rune('a'+i))).Stored)
			}
			b.get("/jobs/" + first)
			b.wire.set(func(x *wire) { x.offline, x.deleted = false, map[string]bool{first: row.gone} })
			b.passTime(true)
			b.say("wake")
			if row.stays {
				var page device.Drawing
				b.look("the reason", func() bool {
					page = b.get("/phone")
					return strings.Contains(page.Parts["page"], "deleted for good")
				})
				assert.Equal(t, row.ticks, page.Waiting)
				assert.Contains(t, b.get("/phone/unsent").Text, "card/a", "it can be saved as a file")
				assert.NotEmpty(t, rowsOf(b, first))
				return
			}
			removed := b.await("the job to leave", drawn("removed"))
			assert.Equal(t, []string{"/", first}, []string{removed.Path, removed.Name})
			assert.Empty(t, rowsOf(b, first))
			assert.Len(t, b.records(first), recorded+row.ticks, "what waited was sent first")
			assert.Equal(t, "unknown", b.get("/jobs/"+first).Type)
			assert.Equal(t, "drawn", b.get("/jobs/"+second).Type, "the other job stays")
			if row.gone {
				return
			}
			assert.Contains(t, b.get("/").Parts["page"], "1 deleted")
			b.wire.set(func(x *wire) { x.deleted = nil })
			b.look("the restored job", func() bool {
				b.say("wake")
				return b.get("/jobs/"+first).Type == "drawn"
			})
		})
	}
}
