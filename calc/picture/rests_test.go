package picture_test

import (
	"sync"
	"testing"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What rests are held changes no picture: not that of another recipe or push, and not of several at once.
func TestHeldRestsChangeNothing(t *testing.T) {
	var rests picture.Rests
	line := outline.Shape{Kind: outline.Line, LengthMM: 2000}
	pictures := func(recipe string, relative float64, rests *picture.Rests) [3][]picture.Balloon {
		r, err := cluster.ParseRecipe(recipe)
		require.NoError(t, err)
		push := cluster.StandardPush()
		push.Relative = relative
		clusters := picture.Equal(r, 12)
		clusters.Rests = rests
		base, _, err := picture.Strung(line, clusters, push)
		require.NoError(t, err)
		accents := picture.Equal(r, 5)
		accents.Rests = rests
		return [3][]picture.Balloon{base, picture.On(base, nil, 0, 1, accents), rests.Free(r)}
	}
	var all sync.WaitGroup
	for range 2 {
		for _, recipe := range []string{"2x11@10", "2x11@10.05", "1x11@10 + 1x5@4.5"} {
			for _, relative := range []float64{1, 1.5} {
				all.Go(func() {
					assert.Equal(t, pictures(recipe, relative, nil), pictures(recipe, relative, &rests), recipe)
				})
			}
		}
	}
	all.Wait()
	assert.Equal(t, pictures("2x11@10", 1, nil), pictures("2x11@10", 1, &rests), "once more, all held")
}
