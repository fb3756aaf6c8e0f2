package outline_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/outline"
)

func ExampleSections() {
	// A base of 5.57 m in sections that two people carry through a door.
	fmt.Printf("%.0f\n", outline.Sections(5570, 1500))
	// Output: [1392 1392 1392 1392]
}

func TestSectionsEdges(t *testing.T) {
	assert.Nil(t, outline.Sections(0, 100))
	assert.Nil(t, outline.Sections(-5, 100))
	assert.Nil(t, outline.Sections(math.NaN(), 100))
	assert.Nil(t, outline.Sections(math.Inf(1), 100))
	assert.Equal(t, []float64{500}, outline.Sections(500, 0), "no limit")
	assert.Equal(t, []float64{500}, outline.Sections(500, math.NaN()), "no limit")
	assert.Equal(t, []float64{500}, outline.Sections(500, 500))
	assert.Equal(t, []float64{500}, outline.Sections(500, math.Inf(1)))
	tenth := 0.1
	assert.Len(t, outline.Sections(tenth+tenth+tenth, tenth), 3, "three tenths exceed 0.3 only by rounding")
	assert.Len(t, outline.Sections(500.1, 500), 2)
	assert.Len(t, outline.Sections(1e300, 1e-300), outline.MostSections)
}

func TestSectionsLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1, 50_000).Draw(t, "length")
		most := rapid.Float64Range(50, 5000).Draw(t, "most")
		sections := outline.Sections(length, most)
		total := 0.0
		for _, section := range sections {
			total += section
			require.Equal(t, sections[0], section, "equal shares")
		}
		assert.InEpsilon(t, length, total, 1e-12)
		assert.LessOrEqual(t, sections[0], most*(1+1e-8))
		if count := len(sections); count > 1 {
			assert.Greater(t, length/float64(count-1), most, "one section fewer would be too long")
		}
		longer := outline.Sections(length+rapid.Float64Range(0, 1000).Draw(t, "more"), most)
		assert.GreaterOrEqual(t, len(longer), len(sections))
	})
}
