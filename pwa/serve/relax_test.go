package serve

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
)

// TestRelaxerComputesRequestedRecipes checks that a recipe outside the tables is estimated at first and computed in the
// background.
func TestRelaxerComputesRequestedRecipes(t *testing.T) {
	recipe, err := cluster.ParseRecipe("1x5@4 + 1x36@33")
	require.NoError(t, err)
	var r relaxer
	push := cluster.StandardPush().By(&r.model)
	r.start(nil)
	r.work.Wait()
	first := cluster.Measure(recipe, push)
	require.True(t, push.Estimates(recipe))
	r.start(nil)
	r.start(nil) // while it works
	r.work.Wait()
	assert.False(t, push.Estimates(recipe))
	assert.NotEqual(t, first, cluster.Measure(recipe, push))
	assert.Empty(t, r.model.Wants())
}

// TestRelaxerStops checks that a stopping server leaves work undone.
func TestRelaxerStops(t *testing.T) {
	recipe, err := cluster.ParseRecipe("1x5@4 + 1x36@33")
	require.NoError(t, err)
	var r relaxer
	cluster.Measure(recipe, cluster.StandardPush().By(&r.model))
	stop := make(chan struct{})
	close(stop)
	r.start(stop)
	r.work.Wait()
	assert.NotEmpty(t, r.model.Wants())
}
