package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// The expected weights of 10 kg are computed by hand. Somebody leans on the frame with 50 N at 1.2 m; the factor is 1.5
// over half a foot of 0.3 m, less 5 kg of frame. Outdoors the usual gust of 5 m/s is to be 80 % of the one in which it
// just holds. A cloth catches it on 3 x 2.2 m, at 0.55 of its height (ASCE 7-16 figure 29.3-1): half of 1.25 kg/m³ (EN
// 1991-1-4 clause 4.5) times v² times 1.80 (clause 7.4.3). Each of its two feet gets as many.
func TestWeightsForFeetHoldTheFrame(t *testing.T) {
	weights := func(wind float64) int {
		moment := 50*1.2 + wind*3*2.2*0.55*2.2
		return 2 * int(math.Ceil(math.Ceil(1.5*moment/0.3/9.80665-5)/20))
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
		{"outdoors with a cloth", append(cloth, outside), weights(0.5 * 1.25 * 6.25 * 6.25 * 1.80)},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(job.Try(onFrame("garland", map[string]any{"length_mm": 3000}, 3000), row.changes))
			assert.Equal(t, row.want, packLines(p)["pack/tool/foot-weights"].Need)
			assert.NotContains(t, asJSON(t, p.Notes), "take down before then")
		})
	}

	storm := append(cloth, outside, job.Put("override/supply/gust", "value", 15))
	p := plan.Make(job.Try(onFrame("garland", map[string]any{"length_mm": 3000}, 3000), storm))
	assert.Contains(t, asJSON(t, p.Notes),
		"Gusts of 15 m/s are expected. Even with all weights and lines, take down before then: Telescopic stand")
}
