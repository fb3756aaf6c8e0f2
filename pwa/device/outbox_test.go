//go:build !js

package device_test

import (
	"encoding/json"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFormStaysUntilTheServersVerdict runs static/js/outbox.js in Node. The journal drops a form only when the server's
// header says what became of it, whatever the status.
func TestFormStaysUntilTheServersVerdict(t *testing.T) {
	program, err := exec.LookPath("node")
	if err != nil {
		t.Skip("static/js/outbox.js was not tried, since there is no Node here: install nodejs, then go test ./pwa/device")
	}
	for _, row := range []struct {
		name, answer string
		kept         bool
	}{
		{"no answer", `null`, true},
		{"an answer without a verdict", `{"status":200}`, true},
		{"an unknown verdict", `{"status":200,"form":"perhaps"}`, true},
		{"a server that fails", `{"status":500}`, true},
		{"a phone that is not signed in", `{"status":401}`, true},
		{"too many requests", `{"status":429}`, true},
		{"accepted", `{"status":200,"form":"kept"}`, false},
		{"refused for good", `{"status":422,"form":"refused"}`, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			out, err := exec.CommandContext(t.Context(), program, "testdata/outbox.mjs", "../../static/js/outbox.js",
				row.answer).
				Output()
			require.NoError(t, err)
			var became struct {
				ID, Body                   string
				Held, Kept, Waits, Settled bool
			}
			require.NoError(t, json.Unmarshal(out, &became), "%s", out)
			assert.Equal(t, "one", became.ID, "sent under its own id")
			assert.Equal(t, "act=tick", became.Body)
			assert.True(t, became.Held, "it must be in the journal while it is being sent")
			assert.Equal(t, row.kept, became.Kept, "in the journal")
			assert.Equal(t, row.kept, became.Waits, "to be sent again")
			assert.Equal(t, !row.kept, became.Settled)
		})
	}
}
