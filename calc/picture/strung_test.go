package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

var recipes = []string{"2x11@10", "3x11@10", "4x11@10", "2x11@10 + 1x18@16", "2x5@4.5"}

// mixed returns clusters of two recipes in turn, as where one colour lacks a size.
func mixed(t testing.TB, n int) picture.Clusters {
	c := picture.Clusters{Recipes: []cluster.Recipe{recipe(t, "2x11@10 + 1x18@16"), recipe(t, "4x11@10")}}
	for i := range n {
		c.Order = append(c.Order, i%3/2)
	}
	return c
}

var shapes = map[string]outline.Shape{
	"line":      line(4500),
	"arc":       {Kind: outline.Arc, WidthMM: 3000, HeightMM: 900},
	"long arc":  {Kind: outline.Arc, WidthMM: 1000, HeightMM: 1800},
	"arch":      {Kind: outline.Arch, WidthMM: 2600, HeightMM: 2500},
	"low arch":  {Kind: outline.Arch, WidthMM: 3600, HeightMM: 1200},
	"hoop":      {Kind: outline.Hoop, DiameterMM: 2000, Part: 0.6, StartDeg: 30},
	"full hoop": {Kind: outline.Hoop, DiameterMM: 2000, Part: 1},
	"swag":      {Kind: outline.Catenary, SpanMM: 3000, SagMM: 700},
	"curve": {Kind: outline.Curve, Points: []outline.Point{
		{XMM: 0, YMM: 0}, {XMM: 800, YMM: 1500}, {XMM: 2000, YMM: 1100}, {XMM: 3000, YMM: 2200}}},
}

func TestStrungHoldsExactlyItsClusters(t *testing.T) {
	for name, shape := range shapes {
		for _, n := range []int{0, 1, 2, 9, 10, 11, 37} {
			for _, text := range recipes {
				c := picture.Equal(recipe(t, text), n)
				balloons := strung(t, shape, c)
				assertHolds(t, c, balloons)
				assertFinite(t, balloons)
			}
			c := mixed(t, n)
			balloons := strung(t, shape, c)
			assertHolds(t, c, balloons)
			assertFinite(t, balloons)
		}
		t.Log(name)
	}
}

// TestPitchInThePictureIsThatOfTheCount fits a line through the middles of the clusters by least squares: a cluster's
// middle lies up to half a pitch beside its knot, which the distance of the first from the last would hang on. Over
// long bases that distance is compared too. The figure beside is the length over the clusters.
func TestPitchInThePictureIsThatOfTheCount(t *testing.T) {
	for _, text := range recipes {
		for _, lengthMM := range []float64{4000, 9000, 20_000} {
			r := recipe(t, text)
			n := cluster.ClustersAlong(lengthMM, r, cluster.StandardPush())
			middles := make([]float64, n)
			for _, b := range strung(t, line(lengthMM), picture.Equal(r, n)) {
				middles[b.Cluster] += b.XMM / float64(r.Balloons())
			}
			pitch := lengthMM / float64(n)
			above, below := 0.0, 0.0
			for i, x := range middles {
				off := float64(i) - float64(n-1)/2
				above, below = above+off*x, below+off*off
			}
			assert.InEpsilon(t, pitch, above/below, 0.01, "%s over %g mm", text, lengthMM)
			if n >= 60 {
				assert.InEpsilon(t, pitch, (middles[n-1]-middles[0])/float64(n-1), 0.01, "%s over %g mm", text, lengthMM)
			}
			assert.InDelta(t, pitch/2, middles[0], pitch/2, "%s over %g mm: first knot", text, lengthMM)
		}
	}
}

// TestBalloonsStayInTheGirth compares the distance from the line with half of cluster.Measure's girth.
func TestBalloonsStayInTheGirth(t *testing.T) {
	for _, text := range recipes {
		r := recipe(t, text)
		most := cluster.WidestMM(r, cluster.StandardPush()) / 2 * 1.02
		for _, b := range strung(t, line(8000), picture.Equal(r, 40)) {
			assert.LessOrEqual(t, math.Hypot(b.YMM, b.DepthMM)+b.RadiusMM, most, "%s: %+v", text, b)
		}
		arch := shapes["arch"]
		points, err := outline.Points(arch, 2001)
		require.NoError(t, err)
		for _, b := range strung(t, arch, picture.Equal(r, 30)) {
			away := math.Inf(1)
			for _, p := range points {
				away = min(away, math.Hypot(b.XMM-p.XMM, b.YMM-p.YMM))
			}
			if b.YMM > 0 { // below its feet an arch has no line to measure from
				assert.LessOrEqual(t, away+b.RadiusMM, most+1, "%s on an arch: %+v", text, b)
			}
		}
	}
}

// covered returns the share of the band of a straight garland, from 10 to 90 % of its length, that balloons hide.
func covered(balloons []picture.Balloon, lengthMM, widthMM float64) float64 {
	const rows, columns = 150, 1200
	hidden, all := 0, 0
	for row := range rows {
		y := ((float64(row)+0.5)/rows - 0.5) * widthMM
		for column := range columns {
			x := (0.1 + 0.8*(float64(column)+0.5)/columns) * lengthMM
			all++
			for _, b := range balloons {
				if (b.XMM-x)*(b.XMM-x)+(b.YMM-y)*(b.YMM-y) <= b.RadiusMM*b.RadiusMM {
					hidden++
					break
				}
			}
		}
	}
	return float64(hidden) / float64(all)
}

// TestCoverageInThePictureIsThatOfTheCount compares the picture with cluster.Coverage, which comes from other
// strings: five of twenty clusters, relaxed with their length.
func TestCoverageInThePictureIsThatOfTheCount(t *testing.T) {
	for _, text := range recipes {
		r := recipe(t, text)
		shown := cluster.Measure(r, cluster.StandardPush())
		n := 40
		lengthMM := shown.PitchMM * float64(n)
		got := covered(strung(t, line(lengthMM), picture.Equal(r, n)), lengthMM, shown.WidthMM)
		t.Logf("%s: %.3f in the picture, %.3f counted", text, got, shown.Coverage)
		assert.InDelta(t, shown.Coverage, got, 0.03, "%s", text)
	}
}

// TestGarlandLooksAsThickAsCounted compares the mean distance of the upper edge from the lower with cluster.WidthMM.
// No balloon may pass the girth, which takes a few percent off clusters of two sizes.
func TestGarlandLooksAsThickAsCounted(t *testing.T) {
	for _, text := range recipes {
		r := recipe(t, text)
		shown := cluster.Measure(r, cluster.StandardPush())
		lengthMM, mean := shown.PitchMM*80, 0.0
		balloons := strung(t, line(lengthMM), picture.Equal(r, 80))
		const stations = 2000
		for k := range stations {
			x, low, high := (0.1+0.8*float64(k)/stations)*lengthMM, 0.0, 0.0
			for _, b := range balloons {
				if chord := b.RadiusMM*b.RadiusMM - (b.XMM-x)*(b.XMM-x); chord > 0 {
					low, high = min(low, b.YMM-math.Sqrt(chord)), max(high, b.YMM+math.Sqrt(chord))
				}
			}
			mean += (high - low) / stations
		}
		assert.InEpsilon(t, shown.WidthMM, mean, 0.06, text)
	}
}

// TestHoopIsClosed compares a whole hoop with the same string laid out straight: no balloon changes its distance from
// the line, not even those of the first and last clusters.
func TestHoopIsClosed(t *testing.T) {
	c := picture.Equal(recipe(t, "2x11@10"), 17)
	flat := strung(t, line(math.Pi*800), c)
	for i, b := range strung(t, outline.Shape{Kind: outline.Hoop, DiameterMM: 800, Part: 1}, c) {
		off := math.Hypot(b.XMM-400, b.YMM-400) - 400
		assert.InDelta(t, math.Abs(flat[i].YMM), math.Abs(off), 1.5, "%+v", b)
	}
}

// TestNoPatternRepeats compares all windows of ten clusters: two are equal if no balloon is off by more than a tenth
// of its radius.
func TestNoPatternRepeats(t *testing.T) {
	const window, n = 10, 120
	for _, text := range recipes {
		r := recipe(t, text)
		lengthMM := cluster.PitchMM(r, cluster.StandardPush()) * n
		balloons, each := strung(t, line(lengthMM), picture.Equal(r, n)), r.Balloons()
		pitch := lengthMM / n
		for a := range n - window {
			for b := a + 1; b <= n-window; b++ {
				furthest := 0.0
				for i := range window * each {
					p, q := balloons[a*each+i], balloons[b*each+i]
					p.XMM += float64(b-a) * pitch
					furthest = max(furthest, math.Hypot(p.XMM-q.XMM, p.YMM-q.YMM)/p.RadiusMM)
				}
				require.Greater(t, furthest, 0.1, "%s: clusters from %d and from %d", text, a, b)
			}
		}
	}
}

// TestSeamsFitNearlyAsWellAsTheModel checks that no cluster is drawn inside another. Overlaps are shares of where two
// balloons touch: at most 0.15 as relaxed, somewhat more where a new run starts or the recipe changes.
func TestSeamsFitNearlyAsWellAsTheModel(t *testing.T) {
	push := cluster.StandardPush()
	rows := map[string]picture.Clusters{"mixed": mixed(t, 100)}
	for _, text := range recipes {
		rows[text] = picture.Equal(recipe(t, text), 100)
	}
	for name, c := range rows {
		lengthMM := 0.0
		for _, k := range c.Order {
			lengthMM += cluster.PitchMM(c.Recipes[k], push)
		}
		balloons := strung(t, line(lengthMM), c)
		inside, seams, sum, touches := 0.0, 0.0, 0.0, 0.0
		for i, a := range balloons {
			for _, b := range balloons[i+1:] {
				deep := (a.RadiusMM + b.RadiusMM - apart(a, b)) / (a.RadiusMM + b.RadiusMM)
				switch {
				case a.Cluster == b.Cluster || deep <= 0:
				case name != "mixed" && a.Cluster/10 == b.Cluster/10:
					inside = max(inside, deep)
				default:
					seams = max(seams, deep)
					sum, touches = sum+deep, touches+1
				}
			}
		}
		t.Logf("%s: at most %.2f inside; at seams %.2f, %.2f as a mean", name, inside, seams, sum/touches)
		assert.Less(t, inside, 0.16, name)
		assert.Less(t, seams, 0.4, name)
		assert.Less(t, sum/touches, 0.16, name)
	}
}

// TestTightCurvesKeepBalloonsOffTheCentre winds quads round a hoop smaller than they are.
func TestTightCurvesKeepBalloonsOffTheCentre(t *testing.T) {
	for _, diameterMM := range []float64{10, 200, 500, 900} {
		shape := outline.Shape{Kind: outline.Hoop, DiameterMM: diameterMM, Part: 0.9}
		for _, b := range strung(t, shape, picture.Equal(recipe(t, "2x11@10"), 12)) {
			away := math.Hypot(b.XMM-diameterMM/2, b.YMM-diameterMM/2)
			assert.Greater(t, away, diameterMM*0.04, "a hoop of %g mm: %+v", diameterMM, b)
		}
	}
}

func TestFeetOfAnArchLieOnTheFloor(t *testing.T) {
	c := picture.Equal(recipe(t, "3x11@10"), 28)
	balloons := strung(t, shapes["arch"], c)
	top := picture.ExtentOf(balloons).TopMM
	picture.OnFloor(balloons)
	assertHolds(t, c, balloons)
	e := picture.ExtentOf(balloons)
	assert.InDelta(t, 0, e.BottomMM, 1e-9)
	assert.Equal(t, top, e.TopMM, "the top stays where it was")
}

func TestStrungSaysWhatIsWrongWithALine(t *testing.T) {
	_, _, err := picture.Strung(line(0), picture.Equal(recipe(t, "2x11"), 3), cluster.StandardPush())
	assert.ErrorIs(t, err, outline.ErrTooSmall)
}
