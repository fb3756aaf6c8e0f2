package picture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/cluster"
	"garlandry/calc/picture"
	"garlandry/calc/softsphere"
)

// TestFreeIsTheBall checks that a free cluster has the balloons of its recipe in their order and looks as large as
// counted.
func TestFreeIsTheBall(t *testing.T) {
	for _, text := range []string{"1x11@10", "2x11@9.5", "2x11@10 + 1x18@16", "2x5@4 + 2x11@10"} {
		r := recipe(t, text)
		free := picture.Free(r)
		assertHolds(t, picture.Equal(r, 1), free)
		assertFinite(t, free)
		var rest softsphere.Rest
		for i, b := range free {
			assert.Equal(t, r.DiametersMM()[i]/2, b.RadiusMM, text)
			rest.Balloons = append(rest.Balloons,
				softsphere.Balloon{X: b.XMM, Y: b.DepthMM, Z: b.YMM, Radius: b.RadiusMM})
		}
		assert.InEpsilon(t, cluster.BallSeenMM(r), rest.SeenMM(), 0.03, text)
	}
	assert.Empty(t, picture.Free(nil))
}

// TestBackToFrontIsByDepth checks that every index is there once, the nearest balloon last.
func TestBackToFrontIsByDepth(t *testing.T) {
	wall := picture.Wall(picture.Equal(recipe(t, "2x11@10"), 12), cluster.StandardPush(), 3, 526)
	order := picture.BackToFront(wall)
	seen := map[int]bool{}
	for i, at := range order {
		seen[at] = true
		if i > 0 {
			behind := wall[order[i-1]].DepthMM
			assert.True(t, behind < wall[at].DepthMM || behind == wall[at].DepthMM && order[i-1] < at)
		}
	}
	assert.Len(t, seen, len(wall))
	assert.Empty(t, picture.BackToFront(nil))
}
