package device_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTickOverTheHourlyLimitWaitsAndArrives checks that a link over its hourly limit keeps the tick, retries a few
// times an hour, and sends it when the hour is over.
func TestTickOverTheHourlyLimitWaitsAndArrives(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	hour := fmt.Sprintf("hour/%012d/link-Ines", w.clock.Load()/3_600_000)
	w.mu.Lock()
	require.NoError(t, w.ledgers[id].AddUse(hour, server.LinkHour))
	w.mu.Unlock()
	helper := w.phone(job.Helper, "Ines")
	helper.enter("/jobs/" + id)
	asked := func() int {
		w.mu.Lock()
		defer w.mu.Unlock()
		n := 0
		for _, path := range helper.wire.asked {
			if strings.HasSuffix(path, "sync") {
				n++
			}
		}
		return n
	}
	before := asked()
	require.True(t, helper.tick("t", "/jobs/"+id, "card/one").Stored)
	for helper.pauses() == 0 || asked() == before {
		require.NoError(t, w.ctx.Err())
		helper.get("/phone")
	}
	waits := helper.get("/phone")
	for !strings.Contains(waits.Parts["page"], "is sent again later") {
		require.NoError(t, w.ctx.Err(), "the page does not say why it waits")
		runtime.Gosched()
		waits = helper.get("/phone")
	}
	assert.Equal(t, 1, waits.Waiting)
	for range 50 {
		helper.get("/phone") // use of the phone must not cause a request
	}
	assert.LessOrEqual(t, asked()-before, 2, "it must not ask again at once")
	assert.Empty(t, ticked(w.records(id)))
	helper.sent()
	assert.Equal(t, map[string]int{"card/one": 1}, ticked(w.records(id)), "nothing is lost")
	assert.LessOrEqual(t, asked()-before, 20, "it may ask a few times an hour")
}
