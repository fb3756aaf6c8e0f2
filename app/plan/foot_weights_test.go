package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// The expected weights of 10 kg are computed by hand. Somebody leans on the frame with 50 N at 1.2 m; the factor is 1.5
// over half a foot of 0.3 m, less 5 kg of frame. Outdoors a cloth also catches wind on 3 x 2.2 m, half-way up: half of
// 1.25 kg/m³ (EN 1991-1-4) times v² times 1.28 (flat plate, NASA Glenn).
func TestWeightsForFeetHoldTheFrame(t *testing.T) {
	weights := func(wind float64) int {
		moment := 50*1.2 + wind*3*2.2*1.1
		return int(math.Ceil(math.Ceil(1.5*moment/0.3/9.80665-5) / 10))
	}
	cloth := []job.Change{job.Put("kit/cloth", "kind", "other"), job.Put("kit/cloth", "name", "Linen cloth"),
		job.Put("kit/cloth", "count", 1)}
	outside := job.Put("brief", "place", "outdoors")
	for _, row := range []struct {
		name    string
		changes []job.Change
		want    int
	}{
		{"indoors somebody leans on it", nil, weights(0)},
		{"outdoors a bare frame takes the usual number", []job.Change{outside}, 6},
		{"outdoors with a cloth", append(cloth, outside), weights(0.5 * 1.25 * 25 * 1.28)},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(job.Try(onFrame("garland", map[string]any{"length_mm": 3000}, 3000), row.changes))
			assert.Equal(t, row.want, packLines(p)["pack/tool/foot-weights"].Need)
			assert.NotContains(t, asJSON(t, p.Notes), "no weight makes it safe")
		})
	}
	assert.Greater(t, weights(0.5*1.25*25*1.28), 6)

	storm := append(cloth, outside, job.Put("override/supply/gust", "value", 15))
	p := plan.Make(job.Try(onFrame("garland", map[string]any{"length_mm": 3000}, 3000), storm))
	assert.Contains(t, asJSON(t, p.Notes), "no weight makes it safe in gusts of 15 m/s")
}
