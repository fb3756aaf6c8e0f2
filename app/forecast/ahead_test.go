package forecast_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
)

// The fix moves no more clusters home than needed, within an eighth: with a fifth fewer, the odds miss the target.
func TestFixMovesOnlyEnoughHome(t *testing.T) {
	t.Parallel()
	j := job.Try(readJob(t, "orchard-wedding"), []job.Change{job.Put("brief", "doors", "2027-06-19T13:53")})
	p, now := plan.Make(j), longBefore(t, j)
	c := clockOf(t, j, now, nil)
	require.Less(t, c.Odds, forecast.Target)
	found := 0
	for _, fix := range c.Fixes(j, &p, now) {
		if len(fix.Mitigations) > 1 || !strings.HasPrefix(fix.Key, "ahead/") {
			continue
		}
		found++
		assert.True(t, fix.Reaches, fix.Key)
		piece := fix.Mitigations[0].Changes[0]
		id := strings.TrimPrefix(piece.Entity, "piece/")
		var n int
		then := job.Try(j, fix.Changes())
		for _, one := range then.Pieces {
			if one.ID == id {
				n = one.Ahead
			}
		}
		require.Positive(t, n)
		assert.Less(t, n, cardsByKey(p)["card/make/"+id].Count, "not all of them")
		half := job.Try(j, []job.Change{job.Put(piece.Entity, "ahead", n*4/5)})
		assert.Less(t, clockOf(t, half, now, nil).Odds, forecast.Target, "a fifth less than %d is too few", n)
	}
	assert.Positive(t, found)
}
