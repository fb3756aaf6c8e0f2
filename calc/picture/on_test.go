package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

type base struct {
	balloons []picture.Balloon
	line     []outline.Point
}

func bases(t testing.TB) map[string]base {
	push := cluster.StandardPush()
	on := func(name, text string, n int) base {
		balloons, l, err := picture.Strung(shapes[name], picture.Equal(recipe(t, text), n), push)
		assert.NoError(t, err)
		return base{balloons, l.Points}
	}
	quads := recipe(t, "2x11@10")
	columns, _ := picture.Column(picture.Equal(quads, 24), push, 2, 0)
	return map[string]base{
		"line":    on("line", "2x11@10", 29),
		"arch":    on("arch", "2x11@10 + 1x18@16", 26),
		"hoop":    on("full hoop", "3x11@10", 28),
		"curve":   on("curve", "4x11@10", 16),
		"columns": {columns, nil},
		"wall":    {picture.Wall(picture.Equal(quads, 60), push, 5, 526), nil},
		"heap":    {picture.Heap(heaps["hundred"]), nil},
		"balloon": {picture.Heap(heaps["one"]), nil},
	}
}

func TestAccentsLieOnTheBase(t *testing.T) {
	for name, b := range bases(t) {
		for _, text := range []string{"2x5@4.5", "1x5@4.5", "1x5@5 + 1x11@9"} {
			for _, n := range []int{0, 1, 7, 18, 90} {
				c := picture.Equal(recipe(t, text), n)
				accents := picture.On(b.balloons, b.line, 0, 1, c)
				assertHolds(t, c, accents)
				assertFinite(t, accents)
				each := c.Recipes[0].Balloons()
				for i := range n {
					assertOn(t, b.balloons, accents[i*each:(i+1)*each], name+" "+text)
				}
				assert.Equal(t, accents, picture.On(b.balloons, b.line, 0, 1, c))
			}
		}
	}
}

// assertOn checks that an accent touches the base, is not inside it and is in front of it.
func assertOn(t testing.TB, on, accent []picture.Balloon, says string) {
	t.Helper()
	gap, beside := math.Inf(1), math.Inf(1)
	x, y := middle(accent)
	for _, b := range on {
		beside = min(beside, math.Hypot(b.XMM-x, b.YMM-y)-b.RadiusMM)
		for _, a := range accent {
			gap = min(gap, (apart(a, b)-a.RadiusMM-b.RadiusMM)/a.RadiusMM)
		}
	}
	assert.InDelta(t, 0, gap, 0.02, says)
	// A cluster of two sizes has its knot, which is on the base, a little beside the middle of its balloons.
	assert.Less(t, beside, 0.2*accent[0].RadiusMM, "%s: the middle is beside the base", says)
}

func middle(balloons []picture.Balloon) (x, y float64) {
	for _, b := range balloons {
		x += b.XMM / float64(len(balloons))
		y += b.YMM / float64(len(balloons))
	}
	return x, y
}

// TestAccentsKeepApart compares the middles of accents with the ball of a free one. A few have room everywhere.
// Thirty on a garland would cover two thirds of it side by side, so some overlap at their edges.
func TestAccentsKeepApart(t *testing.T) {
	r := recipe(t, "2x5@4.5")
	nearest := func(b base, n int) float64 {
		accents, least := picture.On(b.balloons, b.line, 0, 1, picture.Equal(r, n)), math.Inf(1)
		for i := range n {
			for k := range i {
				x, y := middle(accents[4*i : 4*i+4])
				u, v := middle(accents[4*k : 4*k+4])
				least = min(least, math.Hypot(x-u, y-v))
			}
		}
		return least / cluster.BallMM(r)
	}
	for name, b := range bases(t) {
		if name != "balloon" {
			assert.Greater(t, nearest(b, 9), 0.85, name)
		}
	}
	assert.Greater(t, nearest(bases(t)["line"], 30), 0.7)
}

func TestAccentsAreSpreadAlongTheirPart(t *testing.T) {
	b := bases(t)["line"]
	const n = 20
	for _, part := range [][2]float64{{0, 1}, {0.25, 0.5}, {0.5, 1}} {
		accents := picture.On(b.balloons, b.line, part[0], part[1], picture.Equal(recipe(t, "1x5@4.5"), n))
		above := 0
		for i := range n {
			x, y := middle(accents[2*i : 2*i+2])
			wanted := (part[0] + (part[1]-part[0])*(float64(i)+0.5)/n) * 4500
			assert.InDelta(t, wanted, x, 1.8*127, "accent %d", i)
			if y > 0 {
				above++
			}
		}
		assert.InDelta(t, n/2, above, 3, "as many above the string as below")
	}
}

// TestAccentsFindGaps moves each accent aside by 0.7 of a base balloon's radius, in sixteen directions, and lets it
// down there: it lies higher as a mean.
func TestAccentsFindGaps(t *testing.T) {
	const n, each = 12, 4
	for name, b := range bases(t) {
		if name == "balloon" {
			continue
		}
		accents := picture.On(b.balloons, b.line, 0, 1, picture.Equal(recipe(t, "2x5@4.5"), n))
		higher, moves := 0.0, 0.0
		for i := range n {
			for turn := range 16 {
				sin, cos := math.Sincos(float64(turn) * math.Pi / 8)
				if up := letDown(b.balloons, accents[i*each:(i+1)*each], 89*cos, 89*sin); !math.IsInf(up, 0) {
					higher, moves = higher+up, moves+1
				}
			}
		}
		assert.Greater(t, higher/moves, 10.0, "%s: mm", name)
	}
}

// letDown returns how much higher an accent lies when it is moved aside.
func letDown(on, accent []picture.Balloon, dx, dy float64) float64 {
	up := math.Inf(-1)
	for _, b := range on {
		for _, a := range accent {
			touch := a.RadiusMM + b.RadiusMM
			if flat := math.Hypot(a.XMM+dx-b.XMM, a.YMM+dy-b.YMM); flat < touch {
				up = max(up, b.DepthMM+math.Sqrt(touch*touch-flat*flat)-a.DepthMM)
			}
		}
	}
	return up
}

func TestAccentsWithoutABase(t *testing.T) {
	c := picture.Equal(recipe(t, "2x5@4.5"), 3)
	accents := picture.On(nil, nil, 0, 1, c)
	assertHolds(t, c, accents)
	assertFinite(t, accents)
}
