package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
)

func TestTooLargePieceIsRefused(t *testing.T) {
	wall := func(width int) job.Job {
		return made(piece("wall", "wall", map[string]any{"width_mm": width, "height_mm": 50000, "recipe": "2x5@4",
			"colours": shares("coral", 1.0)})...)
	}
	require.NoError(t, plan.CheckSizes(wall(2000)))
	err := plan.CheckSizes(wall(100000))
	var field *job.FieldError
	require.ErrorAs(t, err, &field)
	assert.Equal(t, "piece wall", field.Path)
	assert.Contains(t, err.Error(), "up to 20000 clusters")
	assert.Greater(t, only(t, plan.Make(wall(100000))).Clusters, count.MostClusters)
}
