package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/calc/outline"
)

// The middle of the covered part is where the piece says.
func TestWhereTheGarlandLiesOnAHoop(t *testing.T) {
	for _, row := range []struct {
		at, says string
		x, y     float64 // of the middle from the centre, in radii
	}{
		{"top", "at the top of the hoop", 0, 1}, {"left", "on the left of the hoop", -1, 0},
		{"right", "on the right of the hoop", 1, 0}, {"bottom", "at the bottom of the hoop", 0, -1},
	} {
		for _, part := range []float64{10, 50, 60, 99} {
			j := job.Preview([]job.Change{job.Put("brief", "title", "Hoop"), job.Put("colour/coral", "name", "Coral"),
				job.Put("piece/hoop", "name", "Hoop"), job.Put("piece/hoop", "kind", "hoop"),
				job.Put("piece/hoop", "diameter_mm", 2000), job.Put("piece/hoop", "part_pct", part),
				job.Put("piece/hoop", "part_at", row.at)})
			points, err := outline.Points(count.HoopLine(j.Pieces[0]), 3)
			require.NoError(t, err)
			whole, err := outline.Points(outline.Shape{Kind: outline.Hoop, DiameterMM: 2000}, 5)
			require.NoError(t, err)
			centreX, centreY := (whole[0].XMM+whole[2].XMM)/2, (whole[0].YMM+whole[2].YMM)/2
			assert.InDelta(t, row.x, (points[1].XMM-centreX)/1000, 1e-6, "%s %g", row.at, part)
			assert.InDelta(t, row.y, (points[1].YMM-centreY)/1000, 1e-6, "%s %g", row.at, part)
			steps := ""
			for _, c := range plan.Make(j).Cards {
				if strings.HasPrefix(c.Key, "card/fix/") {
					steps = strings.Join(c.Steps, " ")
				}
			}
			assert.Contains(t, steps, row.says, "%g", part)
		}
	}
}
