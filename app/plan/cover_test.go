package plan_test

import (
	"testing"

	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A cover shows the four pieces whose balloons cover most, each with some of its balloons, however many are small.
func TestCoverHasTheLargestPieces(t *testing.T) {
	changes := piece("long", "garland", map[string]any{"length_mm": 6000, "accents": 0})
	for name, mm := range map[string]int{"tiny": 500, "short": 1000, "middle": 3000, "large": 4000, "larger": 5000} {
		changes = append(changes, piece(name, "garland", map[string]any{"length_mm": mm, "accents": 0})...)
	}
	p := plan.Make(made(changes...))
	pauses := 0
	cover := p.Cover(40, func() { pauses++ })
	require.NotNil(t, cover)
	assert.Equal(t, 4, pauses)
	have := map[string]int{}
	for _, b := range cover.Balloons {
		have[cover.Items[b.Piece].Entity]++
	}
	require.Len(t, have, 4)
	for _, name := range []string{"long", "larger", "large", "middle"} {
		assert.GreaterOrEqual(t, have["piece/"+name], 5, name)
	}
	assert.LessOrEqual(t, len(cover.Balloons), 40)
}

func TestAJobWithoutBalloonsHasNoCover(t *testing.T) {
	p := plan.Make(made())
	assert.Nil(t, p.Cover(40, func() {}))
}
