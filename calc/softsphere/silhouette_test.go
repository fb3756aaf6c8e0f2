package softsphere_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/softsphere"
)

// TestCoverageOfOneRow checks that touching discs in a row fill pi/4 of their band (plane geometry).
func TestCoverageOfOneRow(t *testing.T) {
	row := softsphere.Rest{Clusters: 3, LengthMM: 300}
	for k := range 3 {
		row.Balloons = append(row.Balloons, softsphere.Balloon{Z: 50 + 100*float64(k), Radius: 50, Cluster: k})
	}
	assert.InDelta(t, 100, row.GirthMM(), 1e-9)
	assert.InDelta(t, math.Pi/4, row.Coverage(), 0.01)
}

// TestCoverageWrapsAndHalves checks that half as many discs on the same length hide half as much, even if a disc
// crosses the repeat.
func TestCoverageWrapsAndHalves(t *testing.T) {
	whole := softsphere.Rest{
		Clusters: 2,
		LengthMM: 200,
		Balloons: []softsphere.Balloon{{Z: 0, Radius: 50}, {Z: 100, Radius: 50}},
	}
	half := softsphere.Rest{Clusters: 1, LengthMM: 200, Balloons: []softsphere.Balloon{{Z: 0, Radius: 50}}}
	assert.InDelta(t, whole.Coverage()/2, half.Coverage(), 0.005)
}

// TestCoverageCountsOverlapsOnce checks that two discs on top of each other hide no more than one.
func TestCoverageCountsOverlapsOnce(t *testing.T) {
	one := softsphere.Rest{Clusters: 1, LengthMM: 200, Balloons: []softsphere.Balloon{{Z: 90, Radius: 50}}}
	two := softsphere.Rest{
		Clusters: 1,
		LengthMM: 200,
		Balloons: []softsphere.Balloon{{Z: 90, Radius: 50}, {Z: 90, Radius: 50}},
	}
	assert.InDelta(t, one.Coverage(), two.Coverage(), 1e-9)
}
