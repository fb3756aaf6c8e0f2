package calc_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

const tenInchMM = 254

// TestColumnIsAStackOfTouchingRings pushes half as hard as usual, so that the balloons of quads hardly give way. A
// column is then a stack of touching rings, each turned by half a step: layers 2^(-1/4) = 0.8409 diameters apart
// (height of the square antiprism with unit edge, MathWorld, "Square Antiprism"), the first as high as a balloon.
func TestColumnIsAStackOfTouchingRings(t *testing.T) {
	column := compute(t, "column", "height=2.5m", "recipe=2x11@10", "push=0.5")
	touching := tenInchMM * (1 + (column.Number("layers")-1)*math.Pow(2, -0.25))
	assert.InEpsilon(t, touching, column.Number("height_mm"), 0.02)
}

// TestWallIsTouchingQuadsSideBySide checks that a string of lightly pushed quads looks as wide as one of touching
// balls, 2.1431 diameters on average over all sides and 1 + sqrt 2 at its widest (see TestTouchingQuads of
// calc/softsphere), and that strings of them side by side are 1/sqrt 2 + 1/2 + sqrt 3 / 2 = 2.0731 diameters apart
// (trigonometry of touching balls).
func TestWallIsTouchingQuadsSideBySide(t *testing.T) {
	one := compute(t, "wall", "width=30cm", "height=2m", "recipe=2x11@10", "push=0.5")
	require.Equal(t, 1.0, one.Number("columns"))
	assert.InEpsilon(t, tenInchMM*2.1431, one.Number("width_mm"), 0.02)
	strung := compute(t, "clusters", "length=2m", "recipe=2x11@10", "push=0.5")
	assert.InEpsilon(t, tenInchMM*(1+math.Sqrt2), strung.Number("widest_mm"), 0.03)
	two := compute(t, "wall", "width=1m", "height=2m", "recipe=2x11@10", "push=0.5")
	require.Equal(t, 2.0, two.Number("columns"))
	assert.InEpsilon(t, tenInchMM*2.0731, two.Number("width_mm")-one.Number("width_mm"), 0.02)
}

// TestWallFillsWhatBallsCanFill checks that a wall's balloons, however hard they are pushed, fill no more than the
// densest packing of balls, pi/sqrt 18 = 0.7405 (Kepler; Hales, Annals of Mathematics 162, 2005, 1065). At the usual
// push they fill no less than the loosest stable packing, 0.555 (Onoda and Liniger, Physical Review Letters 64, 1990,
// 2727). A wall of mixed sizes is as deep as two of its largest balloons, if that is more than it looks wide.
func TestWallFillsWhatBallsCanFill(t *testing.T) {
	for _, recipe := range []string{
		"2x11@10", "3x11@10", "4x11@10", "2x11@10+1x18@16", "2x11@10+2x18@16", "1x11@10+1x24@22",
		"1x5@4.5+1x18@16", "2x5@4+2x11@10+1x24@22",
	} {
		r, err := cluster.ParseRecipe(recipe)
		require.NoError(t, err)
		balls, largest := 0.0, 0.0
		for _, d := range r.DiametersMM() {
			balls += math.Pi / 6 * d * d * d
			largest = max(largest, d)
		}
		for _, push := range []string{"push=1", "push=1.5"} {
			wall := compute(t, "wall", "width=10m", "height=10m", "recipe="+recipe, push)
			thick := max(compute(t, "clusters", "length=1m", "recipe="+recipe, push).Number("width_mm"), 2*largest)
			filled := balls * wall.Number("clusters") / (wall.Number("width_mm") * wall.Number("height_mm") * thick)
			assert.Greater(t, filled, 0.555, "%s %s", recipe, push)
			assert.Less(t, filled, math.Pi/math.Sqrt(18), "%s %s", recipe, push)
		}
	}
}

// TestCarCountsLitresAsTheStandardDoes checks ISO 3832, which counts the litres of a car in bricks of 200 x 100 x 50
// mm, one litre each: a space of 1.4 x 1 x 0.8 m takes 7 x 10 x 16 of them.
func TestCarCountsLitresAsTheStandardDoes(t *testing.T) {
	car := compute(t, "car", "cargo=140 x 100 x 80 cm", "clusters=1")
	assert.InDelta(t, 7*10*16, car.Number("car_l"), 1e-9)
}

// TestCarPoursBalloonsAtRandom checks that small balloons in a large van are between the loosest random packing (0.555,
// Onoda and Liniger 1990) and the closest (0.64, Berryman, Physical Review A 27, 1983, 1053), and that a boot holds
// less because of its walls.
func TestCarPoursBalloonsAtRandom(t *testing.T) {
	part := func(space string) float64 {
		car := compute(t, "car", "cargo="+space, "balloons=1000 x 5@4.5")
		return 1000 * math.Pi / 6 * math.Pow(4.5*25.4, 3) / 1e6 / car.Number("litres")
	}
	van, boot := part("4 x 2 x 2 m"), part("80 x 60 x 50 cm")
	assert.Greater(t, van, 0.555)
	assert.Less(t, van, 0.64)
	assert.Less(t, boot, van)
}

// TestCarFromLitresSaysWhatItCannotJudge checks that litres alone do not tell how long a section may be: the answer
// assumes an unfavourable shape and says so.
func TestCarFromLitresSaysWhatItCannotJudge(t *testing.T) {
	known := compute(t, "car", "cargo=165 x 97 x 75 cm", "clusters=1", "recipe=2x11@9.5")
	litres := compute(t, "car", "litres=1200", "clusters=1", "recipe=2x11@9.5")
	assert.Less(t, litres.Number("longest_mm"), known.Number("longest_mm"))
	require.NotEmpty(t, litres.Notes)
	assert.Contains(t, litres.Notes[0], "Litres alone")
	assert.NotContains(t, known.Notes[0], "Litres alone")
}

// TestCarAsksTheDoor checks that a door of 10 x 10 cm lets no base through, with or without a section, and that a
// cluster with a pair of 24-inch balloons, 2 x 22 in across, needs a door that is wide enough for the pair and less
// than a fifth wider: small balloons among them push it apart. It gives a tenth.
func TestCarAsksTheDoor(t *testing.T) {
	shut := compute(t, "car", "cargo=180x110x85cm", "door=10x10cm", "clusters=20")
	assert.Zero(t, shut.Number("longest_mm"))
	assert.Equal(t, false, shut.Outputs["fits"])
	open := compute(t, "car", "cargo=180x110x85cm", "door=100x75cm", "clusters=20", "recipe=2x11@9.5")
	assert.GreaterOrEqual(t, open.Number("longest_mm"), 1800.0)
	pair := "recipe=2x5+2x11+1x24"
	through := func(door string) any {
		return compute(t, "car", "cargo=300x160x140cm", "door="+door, "clusters=1", pair).Outputs["fits"]
	}
	assert.Equal(t, false, through("100x100cm"))
	assert.Equal(t, true, through("120x120cm"))
}

// TestNoSectionGoesThroughADoorThatItsLargestBalloonsDoNot checks sections of one 18-inch duplet and four 5-inch ones.
// Two balloons of 16 in neck to neck span 81 cm. As seen such a base is about 90 cm wide, and here and there wider.
func TestNoSectionGoesThroughADoorThatItsLargestBalloonsDoNot(t *testing.T) {
	for _, door := range []string{"45 x 45 cm", "72 x 72 cm", "88 x 88 cm"} {
		car := compute(t, "car", "cargo=300x160x140cm", "door="+door, "sections=1", "section_length=1.2m",
			"recipe=4x5@4.5 + 1x18@16")
		assert.Equal(t, false, car.Outputs["fits"], door)
		assert.Zero(t, car.Number("longest_mm"), door)
	}
	wide := compute(t, "car", "cargo=300x160x140cm", "door=110 x 110 cm", "sections=1", "section_length=1.2m",
		"recipe=4x5@4.5 + 1x18@16")
	assert.Equal(t, true, wide.Outputs["fits"])
}

// TestCarNeverFillsMoreThanARandomPacking checks a section that holds 689 litres of air by its recipe: no car of 264
// litres, and no four of them in 3,356 litres at once (random close packing 0.64: Berryman, Physical Review A 27, 1983,
// 1053). Two 16-inch balloons neck to neck, 32 in, do not pass a door of 45 cm.
func TestCarNeverFillsMoreThanARandomPacking(t *testing.T) {
	recipe := "recipe=4x5@4.5 + 1x18@16"
	small := compute(t, "car", "litres=264", "sections=1", "section_length=1.5m", recipe)
	assert.Equal(t, false, small.Outputs["fits"])
	door := compute(t, "car", "cargo=2x1x1m", "door=45x45cm", "sections=1", "section_length=1.5m", recipe)
	assert.Equal(t, false, door.Outputs["fits"])
	assert.Contains(t, strings.Join(door.Notes, " "), "too thick for the largest door opening")
	for _, litres := range []string{"litres=3356", "litres=6000"} {
		four := compute(t, "car", litres, "sections=4", "section_length=1.5m", recipe)
		clusters := compute(t, "clusters", "length=1.5m", recipe).Number("clusters")
		air := 4 * clusters * math.Pi / 6 * (8*math.Pow(4.5*25.4, 3) + 2*math.Pow(16*25.4, 3)) / 1e6
		assert.GreaterOrEqual(t, four.Number("litres"), air/0.64)
		assert.Equal(t, litres == "litres=6000", four.Outputs["fits"])
	}
}

// TestClustersSayThatGapsShowWhereTheyDo checks that the note about gaps depends on the coverage, not on the number of
// duplets.
func TestClustersSayThatGapsShowWhereTheyDo(t *testing.T) {
	for _, push := range []string{"0.2", "0.4", "1", "2.5"} {
		for _, recipe := range []string{"1x11@10", "2x11@9.5", "4x11@10", "2x11@10+1x18@16"} {
			base := compute(t, "clusters", "length=3m", "recipe="+recipe, "push="+push)
			says := strings.Contains(strings.Join(base.Notes, " "), "shows through")
			assert.Equal(t, base.Number("coverage_pct") < 90, says, "%s at %s covers %.1f %%", recipe, push,
				base.Number("coverage_pct"))
		}
	}
	gaps := compute(t, "clusters", "length=3m", "recipe=2x11@10+1x18@16", "push=0.2")
	assert.Less(t, gaps.Number("coverage_pct"), 90.0, "a row where gaps show")
}

// TestFloatTimeIsMarkedAsScaled checks that the float time, which scales a figure of the trade to other sizes by
// physics, is marked so.
func TestFloatTimeIsMarkedAsScaled(t *testing.T) {
	marks := map[string]string{}
	for _, source := range compute(t, "lift", "size=11").Sources {
		what, _, _ := strings.Cut(source.Text, ":")
		marks[what] = source.Mark
	}
	assert.Equal(t, "common practice scaled", marks["Float time"])
}

// TestOutsideTheTableIsEstimated checks that a recipe outside the table is labelled as an estimate.
func TestOutsideTheTableIsEstimated(t *testing.T) {
	for recipe, estimated := range map[string]bool{"2x11@10 + 1x18@16": false, "4x11": false, "2x5 + 2x11 + 1x18": false,
		"3x11 + 2x18": false, "2x5 + 2x11 + 2x18": true, "1x5 + 1x11 + 1x18 + 1x24": true} {
		for _, call := range [][]string{{"clusters", "length=3m"}, {"column", "height=2m"},
			{"wall", "width=2m", "height=2m"}, {"accents", "length=3m"}} {
			notes := strings.Join(compute(t, call[0], append(call[1:], "recipe="+recipe)...).Notes, " ")
			assert.Equal(t, estimated, strings.Contains(notes, "Estimated"), "%s of %s", call[0], recipe)
		}
	}
}

// TestLooseBalloonsNeverFillMoreThanARandomPacking loads balloons that are full, which hold more than a sphere: helium
// charts give 0.5 cubic feet for an 11-inch. They take no less room than random close packing needs (Berryman 1983).
func TestLooseBalloonsNeverFillMoreThanARandomPacking(t *testing.T) {
	const cuFt = 28.316846592
	for balloons, litres := range map[string]float64{"1000 x 9@9": 0.25 * cuFt, "1000 x 11@11": 0.5 * cuFt,
		"1000 x 16@16": 1.5 * cuFt, "1000 x 36@36": 15 * cuFt} {
		for _, space := range []string{"cargo=13 x 2.4 x 2.6 m", "cargo=4 x 2 x 2 m", "litres=1200"} {
			car := compute(t, "car", space, "balloons="+balloons)
			assert.GreaterOrEqual(t, car.Number("litres"), 1000*litres/0.64, "%s, %s", balloons, space)
		}
	}
}

// TestAWallSaysWhatOneStringFewerCovers counts strings of 36-inch balloons, of which two are much wider than 8 ft.
func TestAWallSaysWhatOneStringFewerCovers(t *testing.T) {
	wall := compute(t, "wall", "width=8ft", "height=8ft", "recipe=1x36")
	require.Equal(t, 2.0, wall.Number("columns"))
	one := compute(t, "wall", "width=4ft", "height=8ft", "recipe=1x36")
	want := measure.FormatLength(one.Number("width_mm"), measure.Metric)
	assert.Contains(t, wall.Notes, "One string fewer makes it "+want+" wide. Compare that with your frame.")
	assert.NotContains(t, strings.Join(one.Notes, " "), "fewer")
}
