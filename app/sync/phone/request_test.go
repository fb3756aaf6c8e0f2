package phone_test

import (
	"testing"

	"garlandry/app/sync/phone"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Logs of one request pause together, as long as the log with the most failures.
func TestLogsOfAFailedRequestPauseTogether(t *testing.T) {
	const now, minute = int64(1_800_000_000_000), int64(60_000)
	for _, row := range []struct {
		name       string
		failed     int // attempts of the first log that failed before
		watched    bool
		retryAfter int64
		want       int64
	}{
		{"at first a second", 0, false, 0, 1000},
		{"as long as for the log with the most failures", 3, false, 0, 8000},
		{"at most 5 minutes", 20, false, 0, 5 * minute},
		{"at most 30 seconds in view", 20, true, 0, minute / 2},
		{"as long as the server asks", 0, true, minute, minute},
		{"at most 5 minutes, whatever the server asks", 0, false, 60 * minute, 5 * minute},
	} {
		t.Run(row.name, func(t *testing.T) {
			p, _, err := phone.Open(nil, phone.Options{Now: func() int64 { return now },
				NewID: func() string { return "device" }, Jitter: func() float64 { return 0 },
				Watched: func() bool { return row.watched }})
			require.NoError(t, err)
			_, err = p.Track("first", "second")
			require.NoError(t, err)
			for range row.failed {
				p.Failed("first", now, "no signal", 0)
			}
			next := p.FailedTogether([]string{"first", "second", "not held"}, now, "busy", row.retryAfter)
			assert.Equal(t, now+row.want, next)
			for _, log := range []string{"first", "second"} {
				status := p.Status(log)
				assert.Equal(t, []any{next, row.failed + 1, "busy"}, []any{status.NextTry, status.Failures, status.Reason}, log)
			}
		})
	}
}
