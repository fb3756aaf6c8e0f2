package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/picture"
)

var heaps = map[string][]picture.Size{
	"one":             {{254, 1}},
	"a duplet":        {{254, 2}},
	"three":           {{254, 3}},
	"four":            {{254, 4}},
	"ten":             {{254, 10}},
	"five of each":    {{127, 5}, {254, 5}, {406, 5}},
	"large and small": {{914, 1}, {127, 40}},
	"many sizes":      {{90, 7}, {110, 9}, {135, 11}, {165, 13}, {200, 7}, {250, 5}, {300, 3}},
	"hundred":         {{280, 60}, {127, 40}},
	"five hundred":    {{254, 500}},
	"no balloons":     {{254, 0}},
}

// assertSizes checks that the balloons from one on are exactly those of the sizes.
func assertSizes(t testing.TB, sizes []picture.Size, balloons []picture.Balloon) {
	t.Helper()
	n := 0
	seen := map[[2]int]bool{}
	for _, b := range balloons {
		require.False(t, seen[[2]int{b.Part, b.Slot}], "twice: %+v", b)
		seen[[2]int{b.Part, b.Slot}] = true
		require.Less(t, b.Slot, sizes[b.Part].Count)
		require.InDelta(t, sizes[b.Part].DiameterMM, 2*b.RadiusMM, 1e-9)
	}
	for _, s := range sizes {
		n += s.Count
	}
	require.Len(t, balloons, n)
}

// assertLies checks that every balloon lies on the floor, on two that are lower, or on a much larger one.
func assertLies(t testing.TB, balloons []picture.Balloon) {
	t.Helper()
	for i, a := range balloons {
		below := 0
		for _, b := range balloons {
			if b.YMM < a.YMM-0.09*a.RadiusMM && apart(a, b) <= a.RadiusMM+b.RadiusMM+0.02*a.RadiusMM {
				below++
				if b.RadiusMM > 1.5*a.RadiusMM {
					below++
				}
			}
		}
		assert.True(t, below >= 2 || math.Abs(a.YMM-a.RadiusMM) < 0.02*a.RadiusMM, "balloon %d rolls off: %+v", i, a)
	}
}

func TestHeaps(t *testing.T) {
	for name, sizes := range heaps {
		t.Run(name, func(t *testing.T) {
			heap := picture.Heap(sizes)
			assertSizes(t, sizes, heap)
			assertFinite(t, heap)
			assert.LessOrEqual(t, deepest(heap), 0.08)
			assertLies(t, heap)
			e := picture.ExtentOf(heap)
			assert.GreaterOrEqual(t, e.BottomMM, -1e-6)
			assert.InDelta(t, -e.LeftMM, e.RightMM, 1e-6)
			wide, high := e.RightMM-e.LeftMM, e.TopMM-e.BottomMM
			t.Logf("%.0f wide, %.0f high", wide, high)
			if len(heap) >= 10 {
				assert.Less(t, wide, 1.8*high)
				assert.Less(t, high, 1.8*wide)
			}
			assert.Equal(t, heap, picture.Heap(sizes))
		})
	}
}

// TestHeapsOfEveryCount checks duplets of one size and a mix, from one balloon to many.
func TestHeapsOfEveryCount(t *testing.T) {
	for n := 1; n <= 2000; n += 1 + n/4 {
		for _, sizes := range [][]picture.Size{{{254, n}}, {{127, n / 2}, {254, n - n/2}}} {
			heap := picture.Heap(sizes)
			assertSizes(t, sizes, heap)
			assertLies(t, heap)
			assert.LessOrEqual(t, deepest(heap), 0.08)
			e := picture.ExtentOf(heap)
			most, wide, high := 1.8, e.RightMM-e.LeftMM, e.TopMM-e.BottomMM
			if n < 30 { // a few whole layers
				most = 2.3
			}
			assert.Less(t, wide, most*high, "%v", sizes)
			assert.Less(t, high, most*wide, "%v", sizes)
		}
	}
}

// TestNoBalloonLiesOnASmallerOne leaves out sizes that differ by less than a sixth, which share their layers.
func TestNoBalloonLiesOnASmallerOne(t *testing.T) {
	for name, sizes := range heaps {
		heap := picture.Heap(sizes)
		for _, a := range heap {
			for _, b := range heap {
				if b.RadiusMM < 0.84*a.RadiusMM && apart(a, b) < (a.RadiusMM+b.RadiusMM)*1.001 {
					below := (a.YMM - b.YMM) / apart(a, b)
					assert.Less(t, below, 0.95, "%s: %+v on %+v", name, a, b)
				}
			}
		}
	}
}

func TestBouquets(t *testing.T) {
	for name, sizes := range heaps {
		for _, helium := range []bool{true, false} {
			for _, n := range []int{1, 2, 5} {
				t.Run(name, func(t *testing.T) {
					all, lines := picture.Bouquets(sizes, n, helium)
					assertFinite(t, all)
					if name == "no balloons" {
						assert.Empty(t, all)
						return
					}
					each := len(all) / n
					last := picture.Extent{RightMM: -1}
					for bunch := range n {
						one := all[bunch*each : (bunch+1)*each]
						assertSizes(t, sizes, one)
						assert.Equal(t, bunch, one[each-1].Cluster)
						assert.LessOrEqual(t, deepest(one), 0.08)
						e := picture.ExtentOf(one)
						assert.Greater(t, e.LeftMM, last.RightMM, "bouquets stand apart")
						assert.InDelta(t, map[bool]float64{true: picture.RibbonMM, false: picture.StickMM}[helium], e.BottomMM, 1e-6)
						last = e
					}
					if helium {
						assert.Len(t, lines, len(all), "a ribbon for each balloon")
						for i, l := range lines {
							assert.InDelta(t, all[i].YMM-all[i].RadiusMM, l.Points[0].YMM, 1e-9, "it starts at the neck")
							assert.Equal(t, all[i].XMM, l.Points[0].XMM)
							assert.Zero(t, l.Points[1].YMM, "it ends at the weight")
						}
					} else {
						assert.Len(t, lines, n, "a stick for each bouquet")
					}
				})
			}
		}
	}
}

// one is the digit 1 in bars as the number frame counts them: width 0.6, stroke 0.2 of a height of 1200 mm.
var one = []picture.Rectangle{{480, 0, 240, 1200}}

var seven = []picture.Rectangle{{960, 960, 720, 240}, {1440, 0, 240, 960}}

func TestDigits(t *testing.T) {
	for _, n := range []int{0, 1, 2, 7, 40, 58, 200} {
		digits := []picture.Digit{{one, n}, {seven, 2 * n}}
		balloons := picture.Digits(digits, 114)
		assertFinite(t, balloons)
		counts, front := [2]int{}, [2]int{}
		slots := map[[2]int]bool{}
		for _, b := range balloons {
			counts[b.Cluster]++
			if b.DepthMM > 0 {
				front[b.Cluster]++
			}
			slots[[2]int{b.Cluster, b.Slot}] = true
			assert.True(t, inside(digits[b.Cluster].Bars, b.XMM, b.YMM), "%+v", b)
		}
		assert.Equal(t, [2]int{n, 2 * n}, counts)
		assert.Equal(t, [2]int{(n + 1) / 2, n}, front, "half in front")
		assert.Len(t, slots, 3*n)
		for _, a := range balloons {
			for _, b := range balloons {
				hidden := a.DepthMM > 0 && b.DepthMM < 0 && math.Hypot(a.XMM-b.XMM, a.YMM-b.YMM) < 10
				assert.False(t, hidden, "%+v is behind %+v", b, a)
			}
		}
		if n >= 40 {
			assertSpread(t, digits, balloons, false)
			assertSpread(t, digits, balloons, true)
		}
	}
}

func inside(bars []picture.Rectangle, x, y float64) bool {
	for _, r := range bars {
		if x >= r.LeftMM && x <= r.LeftMM+r.WideMM && y >= r.BottomMM && y <= r.BottomMM+r.HighMM {
			return true
		}
	}
	return false
}

// assertSpread checks all balloons, or those in front, against a square lattice with as many points on the same area:
// neighbours are at least 0.55 of its step apart, and no point of a bar is further from a balloon than 1.25 steps, or
// 1.4 from one in front: a corner may lie behind.
func assertSpread(t testing.TB, digits []picture.Digit, balloons []picture.Balloon, front bool) {
	t.Helper()
	for k, d := range digits {
		area := 0.0
		for _, r := range d.Bars {
			area += r.WideMM * r.HighMM
		}
		count, far := d.Balloons, 1.25
		if front {
			count, far = d.Balloons/2, 1.4
		}
		step := math.Sqrt(area / float64(count))
		counts := func(b picture.Balloon) bool { return b.Cluster == k && (!front || b.DepthMM > 0) }
		nearest := func(x, y float64, skip int) float64 {
			least := math.Inf(1)
			for i, b := range balloons {
				if i != skip && counts(b) {
					least = min(least, math.Hypot(b.XMM-x, b.YMM-y))
				}
			}
			return least
		}
		for i, b := range balloons {
			if counts(b) {
				assert.Greater(t, nearest(b.XMM, b.YMM, i), 0.55*step, "digit %d of %d", k, d.Balloons)
			}
		}
		for _, r := range d.Bars {
			for x := 0.0; x <= 1; x += 0.1 {
				for y := 0.0; y <= 1; y += 0.05 {
					away := nearest(r.LeftMM+x*r.WideMM, r.BottomMM+y*r.HighMM, -1)
					assert.Less(t, away, far*step, "digit %d of %d", k, d.Balloons)
				}
			}
		}
	}
}
