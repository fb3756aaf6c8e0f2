package calc_test

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// FuzzComputeNeverPanics checks that Compute never panics or returns a partial answer, whatever is typed: it returns a
// complete result or a refusal of one line.
func FuzzComputeNeverPanics(f *testing.F) {
	for i, c := range calc.All() {
		for k, in := range c.Inputs {
			f.Add(i, k, in.Example, k+1, "", true)
			f.Add(i, k, "0", k+2, "1e9", false)
		}
	}
	f.Add(3, 1, "\xff½,;:@ from to along", 2, "0,0;0,0", true)
	f.Fuzz(func(t *testing.T, which, first int, text string, second int, other string, imperial bool) {
		all := calc.All()
		c := all[index(which, len(all))]
		raw := c.Example.Raw()
		raw[c.Inputs[index(second, len(c.Inputs))].Key] = other
		raw[c.Inputs[index(first, len(c.Inputs))].Key] = text
		system := measure.Metric
		if imperial {
			system = measure.Imperial
		}
		result, err := c.Compute(nil, raw, system)
		if err != nil {
			var refused *calc.InputError
			require.True(t, errors.As(err, &refused), "%v", err)
			assert.NotContains(t, err.Error(), "\n")
			assert.True(t, utf8.ValidString(err.Error()), "%q", err.Error())
			assert.Equal(t, -1, strings.IndexFunc(err.Error(), unicode.IsControl), "%q", err.Error())
			return
		}
		checkResult(t, c, result)
	})
}

func index(i, n int) int {
	if i < 0 {
		i = -(i + 1)
	}
	return i % n
}

// compute runs a calculator, which must not refuse.
func compute(t require.TestingT, name string, pairs ...string) calc.Result {
	raw := map[string]string{}
	for _, pair := range pairs {
		key, text, _ := strings.Cut(pair, "=")
		raw[key] = text
	}
	result, err := computeNamed(name, raw, measure.Metric)
	require.NoError(t, err)
	return result
}

// computeNamed runs the calculator with that name, without a model.
func computeNamed(name string, raw map[string]string, system measure.System) (calc.Result, error) {
	c, _ := calc.Find(name)
	return c.Compute(nil, raw, system)
}

// outputOf returns an output of the calculator by its key.
func outputOf(c calc.Calculator, key string) (calc.Output, bool) {
	i := slices.IndexFunc(c.Outputs, func(out calc.Output) bool { return out.Key == key })
	if i < 0 {
		return calc.Output{}, false
	}
	return c.Outputs[i], true
}

func text(mm float64) string { return measure.FormatNumber(mm, 6) + " mm" }

// TestLawsOfCounts checks that more length never takes fewer clusters, and that the outputs agree with each other.
func TestLawsOfCounts(t *testing.T) {
	recipes := []string{"2x11@9.5", "3x11@10", "2x11@10 + 1x18@16", "4x5@4", "1x36@33"}
	rapid.Check(t, func(t *rapid.T) {
		recipe := "recipe=" + rapid.SampledFrom(recipes).Draw(t, "recipe")
		length := rapid.Float64Range(100, 15_000).Draw(t, "length")
		more := rapid.Float64Range(0, 4_000).Draw(t, "more")
		short, long := compute(t, "clusters", "length="+text(length), recipe), compute(t, "clusters",
			"length="+text(length+more), recipe)
		assert.LessOrEqual(t, short.Number("clusters"), long.Number("clusters"))
		assert.Equal(t, 2*long.Number("duplets"), long.Number("balloons"))
		assert.GreaterOrEqual(t, long.Number("clusters")*long.Number("pitch_mm"),
			(length+more)-0.001*long.Number("pitch_mm")-0.01)

		low, high := compute(t, "column", "height="+text(length), recipe), compute(t, "column", "height="+text(length+more),
			recipe)
		assert.LessOrEqual(t, low.Number("layers"), high.Number("layers"))
		assert.GreaterOrEqual(t, high.Number("height_mm"), length+more-0.001*high.Number("pitch_mm")-0.01)

		narrow, wide := compute(t, "wall", "height=2m", "width="+text(length), recipe), compute(t, "wall", "height=2m",
			"width="+text(length+more), recipe)
		assert.LessOrEqual(t, narrow.Number("clusters"), wide.Number("clusters"))
		assert.Equal(t, wide.Number("rows")*wide.Number("columns"), wide.Number("clusters"))

		accents := compute(t, "accents", "length="+text(length), recipe, "coverage=99%")
		assert.GreaterOrEqual(t, accents.Number("coverage_after_pct"), accents.Number("coverage_before_pct"))
	})
}

// TestMeasuredBaseIsBelieved checks that a measured base gives the measured count.
func TestMeasuredBaseIsBelieved(t *testing.T) {
	made := compute(t, "clusters", "length=3.1m", "recipe=2x11@10 + 1x18@16", "measured=12 in 3.1m")
	assert.InDelta(t, 3100.0/12, made.Number("pitch_mm"), 1)
	assert.InDelta(t, 12, made.Number("clusters"), 1)
	assert.Contains(t, made.Working[0].Value, calc.MarkMeasured)
}

// TestLawsOfHolding checks that more wind, more weight and more heat never look safer.
func TestLawsOfHolding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wind := rapid.Float64Range(1, 20).Draw(t, "wind")
		more := rapid.Float64Range(0, 10).Draw(t, "more")
		stand := func(mps float64) calc.Result {
			return compute(t, "tip", "width=2m", "height=2m", "weight=40kg", "base_depth=1m",
				"wind="+measure.FormatNumber(mps, 6)+" m/s")
		}
		calm, windy := stand(wind), stand(wind+more)
		assert.GreaterOrEqual(t, calm.Number("overturn_factor"), windy.Number("overturn_factor"))
		assert.LessOrEqual(t, calm.Number("ballast_kg"), windy.Number("ballast_kg"))

		bar := func(kg float64) calc.Result {
			return compute(t, "dip", "span=2.4m", "test_weight=1.55kg", "test_dip=18mm", "test_stays=6mm",
				"loads=sign "+measure.FormatNumber(kg, 6)+"kg @ 0.9m")
		}
		assert.LessOrEqual(t, bar(wind).Number("dip_mm"), bar(wind+more).Number("dip_mm")+1e-9)

		warm := func(celsius float64) calc.Result {
			return compute(t, "heat", "size=11", "to=9in", "fill_temp=15C",
				"show_temp="+measure.FormatNumber(celsius, 6)+" C")
		}
		assert.LessOrEqual(t, warm(wind).Number("show_diameter_mm"), warm(wind+more).Number("show_diameter_mm")+1e-9)
	})
}

// TestLawsOfBuying checks that shares add up and purchases cover the need.
func TestLawsOfBuying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.IntRange(0, 3000).Draw(t, "total")
		n := measure.FormatNumber(float64(total), 0)
		sum := 0
		for _, share := range compute(t, "split", "total="+n,
			"weights=coral 3, ink blue 2.5, sand 1").Outputs["shares"].([]int) {
			sum += share
		}
		assert.Equal(t, total, sum)
		bought := compute(t, "bags", "need="+n, "have=7", "bags=100:9.90, 50:5.60, 25:3.20")
		holds := 7
		for i, count := range bought.Outputs["bags"].([]int) {
			holds += count * []int{100, 50, 25}[i]
		}
		assert.Equal(t, float64(holds-total), bought.Number("left"))
		assert.GreaterOrEqual(t, holds, total)
		assert.GreaterOrEqual(t, compute(t, "spares", "need="+n).Number("spares"), 0.0)
	})
}

// TestPicturesShowWhatIsCounted checks that the picture has as many balloons as are counted, at the stated distance,
// and is reproducible.
func TestPicturesShowWhatIsCounted(t *testing.T) {
	for _, recipe := range []string{"2x11@9.5", "1x11@10", "3x11@10", "2x11@10 + 1x18@16", "4x5@4", "1x36@33",
		"2x5@4 + 2x11@10 + 2x18@16 + 1x36@33", "8x11@11"} {
		t.Run(recipe, func(t *testing.T) {
			base := compute(t, "clusters", "length=1m", "recipe="+recipe)
			picture := base.Picture()
			require.NotNil(t, picture)
			checkDrawing(t, picture)
			assert.Equal(t, picture, base.Picture())
			perCluster := int(base.Number("balloons") / base.Number("clusters"))
			drawn := balloonsOf(picture, calc.RoleBalloon)
			shown := min(int(base.Number("clusters")), 5)
			require.Len(t, drawn, shown*perCluster)
			assert.Len(t, balloonsOf(picture, calc.RoleGhost), perCluster)
			left, right := math.Inf(1), math.Inf(-1)
			for _, b := range drawn {
				left, right = math.Min(left, b.Points[0].XMM), math.Max(right, b.Points[0].XMM)
			}
			far := right - left
			assert.InDelta(t, float64(shown-1)*base.Number("pitch_mm"), far, base.Number("ball_mm"),
				"from the first to the last")

			column := compute(t, "column", "height=1.5m", "recipe="+recipe)
			assert.Len(t, balloonsOf(column.Picture(), calc.RoleBalloon), int(column.Number("balloons")))
			wall := compute(t, "wall", "height=1m", "width=1.2m", "recipe="+recipe)
			assert.Len(t, balloonsOf(wall.Picture(), calc.RoleBalloon), int(wall.Number("balloons")))
		})
	}
}

// TestAccentsAreOnTheBase checks that a picture has whole accents, as many as its title says, and that every balloon of
// them is seen on or beside one of the base.
func TestAccentsAreOnTheBase(t *testing.T) {
	for _, cover := range []string{"96.5%", "97%", "99%"} {
		picture := compute(t, "accents", "length=10ft", "recipe=2x11@10 + 1x18@16", "coverage="+cover).Picture()
		require.NotNil(t, picture)
		checkDrawing(t, picture)
		base, accents := balloonsOf(picture, calc.RoleBalloon), balloonsOf(picture, calc.RoleAccent)
		require.NotEmpty(t, accents)
		assert.Zero(t, len(accents)%4, "of two duplets")
		assert.Contains(t, picture.Title, " "+strconv.Itoa(len(accents)/4)+" accent")
		for _, a := range accents {
			assert.True(t, slices.ContainsFunc(base, func(b calc.Shape) bool {
				return math.Hypot(a.Points[0].XMM-b.Points[0].XMM, a.Points[0].YMM-b.Points[0].YMM) <
					b.RadiusMM+3*a.RadiusMM
			}), cover)
		}
	}
}

// TestWhatShrinksIsSeen checks that of a balloon at two times the smaller one is drawn over the larger one.
func TestWhatShrinksIsSeen(t *testing.T) {
	for _, degrees := range []string{"-10 C", "40 C"} {
		picture := compute(t, "heat", "size=11", "to=10", "fill_temp=20 C", "show_temp="+degrees).Picture()
		require.NotNil(t, picture)
		before, after := balloonsOf(picture, calc.RoleGhost), balloonsOf(picture, calc.RoleBalloon)
		require.Len(t, before, 1)
		require.Len(t, after, 1)
		assert.Greater(t, before[0].RadiusMM, after[0].RadiusMM, degrees)
	}
}

func balloonsOf(d *calc.Drawing, role calc.Role) []calc.Shape {
	var found []calc.Shape
	for _, shape := range d.Shapes {
		if shape.Kind == calc.ShapeCircle && shape.Role == role {
			found = append(found, shape)
		}
	}
	return found
}

// TestNoVerdictOverPeople checks that there is no verdict for a load over people, whatever the line.
func TestNoVerdictOverPeople(t *testing.T) {
	over := compute(t, "line", "weight=0.1kg", "strength=1000 N", "over_people=yes")
	assert.Equal(t, "no verdict", over.Outputs["verdict"])
	assert.Zero(t, over.Number("allowed_n"))
	require.NotEmpty(t, over.Notes)
	assert.Contains(t, over.Notes[0], "rigger")
}

// TestBeaufortCountsGusts checks that a Beaufort force, which is a mean wind, counts with its gusts, and that a speed
// counts as a gust.
func TestBeaufortCountsGusts(t *testing.T) {
	stand := []string{"width=2m", "height=2m", "weight=40kg", "base_depth=1m"}
	force := compute(t, "tip", append(stand, "wind=Bft 4")...)
	speed := compute(t, "tip", append(stand, "wind=11.85 m/s")...)
	assert.InDelta(t, speed.Number("wind_n"), force.Number("wind_n"), 1e-6)
}
