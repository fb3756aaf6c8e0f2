package table_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/softsphere"
)

// TestTableMatchesTheSoftsphere relaxes some rows again. It fails if the table no longer matches the softsphere; go
// generate in calc/cluster then makes a new one. One size must match to a ten-thousandth, two sizes to half a step,
// three to half a step of a factor.
func TestTableMatchesTheSoftsphere(t *testing.T) {
	for _, c := range []struct {
		name          string
		groups        []table.Group
		pitch, coarse float64
	}{
		{"quads", []table.Group{{2, 1}}, 5.1e-5, 5.1e-5},
		{"three duplets", []table.Group{{3, 1}}, 5.1e-5, 5.1e-5},
		{"two sizes", []table.Group{{2, 1}, {1, 1.6}}, 0.5 / 64, 0.05},
		{"two sizes, five duplets", []table.Group{{3, 1}, {2, 1.6}}, 0.5 / 64, 0.05},
		{"three sizes", []table.Group{{1, 1}, {1, 2.3}, {1, 2.3 * 1.75}}, 0.025, 0.05},
	} {
		t.Run(c.name, func(t *testing.T) {
			own, err := softsphere.NewProfile(table.Diameters(c.groups))
			require.NoError(t, err)
			var kept softsphere.Curve
			table.Kept.Curve(&kept, c.groups)
			for i := range softsphere.Points {
				assert.InDelta(t, own.Pitch[i], kept.Pitch[i], c.pitch+1e-4, "pitch at push %d", i)
				assert.InDelta(t, own.Coverage[i], kept.Coverage[i], c.coarse, "coverage at push %d", i)
			}
		})
	}
}

func TestEveryRowHasItsPlace(t *testing.T) {
	seen := map[string]bool{}
	all := append(append(table.Alike(), table.Mixed()...), table.Three()...)
	for _, groups := range all {
		var curve softsphere.Curve
		table.Kept.Curve(&curve, groups)
		assert.True(t, table.Held(groups), "%+v", groups)
		text := fmt.Sprint(curve)
		assert.False(t, seen[text], "%+v has another row's curve", groups)
		seen[text] = true
		for i := 1; i < softsphere.Points; i++ {
			assert.LessOrEqual(t, curve.Pitch[i], curve.Pitch[i-1], "%+v", groups)
		}
	}
	assert.Len(t, seen, 8+28*5+10*5*4)
}

func TestEncodeKeepsTenThousandths(t *testing.T) {
	curve := sample()
	text := table.Encode(&curve)
	back := table.Decode(text)
	for i := range softsphere.Points {
		assert.InDelta(t, curve.Pitch[i], back.Pitch[i], 5.1e-5)
		assert.InDelta(t, curve.Coverage[i], back.Coverage[i], 5.1e-5)
	}
	assert.Equal(t, text, table.Encode(&back), "decoding and encoding must change nothing")
}

func sample() (curve softsphere.Curve) {
	for i := range softsphere.Points {
		curve.Pitch[i] = 1.7 - float64(i)/11
		curve.Coverage[i] = 0.9 + float64(i)/100
	}
	return curve
}

// TestPackCatchesUp checks that a pitch that falls further in one step than a byte can hold is right again after the
// next steps.
func TestPackCatchesUp(t *testing.T) {
	curve := sample()
	curve.Pitch = softsphere.AtPushes{3.9, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5}
	book := *table.Kept
	var back softsphere.Curve
	one := []*softsphere.Curve{&curve, &curve, &curve, &curve, &curve}
	book.Mixed = table.Pack(one)
	book.Curve(&back, []table.Group{{1, 1}, {1, table.FirstRatio}})
	for i := range softsphere.Points {
		within := 0.5 / 64
		if i == 1 {
			within = 0.5
		}
		assert.InDelta(t, curve.Pitch[i], back.Pitch[i], within, "push %d", i)
	}
}

// TestSizesMeet checks the limits at which two sizes become the same: three sizes are then two, and two are one.
func TestSizesMeet(t *testing.T) {
	book := table.Kept
	near := func(name string, a, b []table.Group) {
		var one, other softsphere.Curve
		mean, otherMean := book.Curve(&one, a), book.Curve(&other, b)
		for i := range softsphere.Points {
			assert.InEpsilon(t, one.Pitch[i]*mean, other.Pitch[i]*otherMean, 1e-4, name)
		}
	}
	const bit = 1 + 1e-6
	near("two are one", []table.Group{{3, 1}}, []table.Group{{2, 1}, {1, bit}})
	near("small and middle", []table.Group{{3, 1}, {1, 1.9}}, []table.Group{{2, 1}, {1, bit}, {1, 1.9}})
	near("middle and large", []table.Group{{1, 1}, {2, 1.9}}, []table.Group{{1, 1}, {1, 1.9}, {1, 1.9 * bit}})
	near("four are three", []table.Group{{1, 1}, {2, 1.9}, {3, 3}},
		[]table.Group{{1, 1}, {1, 1.9}, {1, 1.9 * bit}, {3, 3}})
	near("level beyond the ratios", []table.Group{{1, 1}, {1, 6}}, []table.Group{{1, 1 / bit}, {1, 6}})
}

// TestSubstituteKeepsThreeMoments checks that a substitute has the balloons' count, mean, spread and volume, by the
// definition of Gauss quadrature with two nodes.
func TestSubstituteKeepsThreeMoments(t *testing.T) {
	for _, groups := range [][]table.Group{
		{{1, 1}, {1, 2}, {1, 3}}, {{2, 4.5}, {2, 10}, {1, 16}}, {{5, 1}, {1, 2}, {1, 6}}, {{1, 4}, {1, 10}, {2, 16},
			{1, 22}, {1, 33}},
	} {
		small, few, large, many := table.Substitute(groups)
		duplets := 0.0
		for power := range 4 {
			want := 0.0
			for _, g := range groups {
				want += float64(g.Duplets) * math.Pow(g.Diameter, float64(power))
			}
			if power == 0 {
				duplets = want
			}
			assert.InEpsilon(t, want, few*math.Pow(small, float64(power))+many*math.Pow(large, float64(power)), 1e-9,
				"power %d of %v", power, groups)
		}
		assert.GreaterOrEqual(t, few, float64(groups[0].Duplets), "of %g duplets", duplets)
		assert.GreaterOrEqual(t, many, float64(groups[len(groups)-1].Duplets))
	}
}
