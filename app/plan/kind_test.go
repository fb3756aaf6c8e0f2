package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc"
	"garlandry/calc/measure"
)

type countedKind struct {
	name, kind                                            string
	fields                                                map[string]any
	clusters, duplets, balloons, ties, accents, inAccents int
}

func countedBaseKinds() []countedKind {
	coral := shares("coral", 1.0)
	return []countedKind{
		{
			// Common practice, no source: two quads of 9.5 in to the foot. Ties: 20 loops, one every 2 ft (5) and two
			// for the ends, half of one for each of 5 accents (3).
			"garland of a typed length", "garland", map[string]any{"line": "typed", "length_mm": 3048, "recipe": "2x11@9.5",
				"colours": coral},
			20, 40 + 10, 80 + 20, 20 + 7 + 3, 5, 20,
		},
		{
			// Legs of 1 m and half a circle 2 m across: 2 + pi = 5.142 m over 0.1524 m is 33.7.
			"arch", "garland", map[string]any{"line": "arch", "width_mm": 2000, "height_mm": 2000, "recipe": "2x11@9.5",
				"colours": coral, "accents": 0},
			34, 68, 136, 34 + 11, 0, 0,
		},
		{
			// A half circle 2 m across: 3.142 m over 0.1524 m is 20.6.
			"arc", "garland", map[string]any{"line": "arc", "width_mm": 2000, "height_mm": 1000, "recipe": "2x11@9.5",
				"colours": coral, "accents": 0},
			21, 42, 84, 21 + 8, 0, 0,
		},
		{
			// Half of a hoop 2 m across is the same line.
			"half a hoop", "hoop", map[string]any{"diameter_mm": 2000, "part_pct": 50, "recipe": "2x11@9.5",
				"colours": coral, "accents": 3},
			21, 42 + 6, 84 + 12, 21 + 8 + 2, 3, 12,
		},
		{
			// One layer is a balloon (9.5 in), each further one adds 6 in: (72 - 9.5) / 6 = 10.4, so 12; twice.
			"two columns of 6 ft", "column", map[string]any{"height_mm": 1828.8, "count": 2, "recipe": "2x11@9.5",
				"colours": coral},
			24, 48, 96, 4, 0, 0,
		},
	}
}

func countedSingleKinds() []countedKind {
	coral := shares("coral", 1.0)
	return []countedKind{
		{"air bouquets", "bouquets", map[string]any{"count": 4, "each": 5, "colours": coral}, 0, 8, 20, 4, 0, 0},
		{"helium bouquets need no ties", "bouquets",
			map[string]any{"count": 4, "each": 5, "gas": "helium", "colours": coral}, 0, 0, 20, 0, 0, 0},
		{"table pieces", "tables", map[string]any{"count": 8, "each": 6, "size_in": 5, "to_in": 4.5, "colours": coral}, 0,
			24, 48, 8, 0, 0},
		{
			// A 1 is a bar of 0.2 by 1 m; a balloon of 4.5 in pressed to 0.9 covers 0.10287 m squared: 0.2 / 0.010583 = 18.9.
			"number frame", "numbers", map[string]any{"digits": "1", "height_mm": 1000, "size_in": 5, "to_in": 4.5,
				"colours": coral},
			0, 10, 20, 5, 0, 0,
		},
		{
			// An 8 is 0.6 by 1 with two holes of 0.2 by 0.2: 0.52 m2, 49.1 balloons.
			"the fullest digit", "numbers", map[string]any{"digits": "8", "height_mm": 1000, "size_in": 5, "to_in": 4.5,
				"colours": coral},
			0, 25, 50, 13, 0, 0,
		},
		{
			// A 0 has one hole of 0.2 by 0.6: 0.48 m2, 45.4 balloons.
			"a digit with one hole", "numbers", map[string]any{"digits": "0", "height_mm": 1000, "size_in": 5, "to_in": 4.5,
				"colours": coral},
			0, 23, 46, 12, 0, 0,
		},
		{
			"free piece as typed", "free", map[string]any{"counts": []job.TypedCount{{SizeIn: 11, Colour: "coral", Count: 7},
				{SizeIn: 18, ToIn: 16, Colour: "coral", Count: 2}}},
			0, 4, 9, 3, 0, 0,
		},
	}
}

// The expected figures are computed by hand beside each row.
func TestEachKindIsCounted(t *testing.T) {
	for _, row := range append(countedBaseKinds(), countedSingleKinds()...) {
		t.Run(row.name, func(t *testing.T) {
			c := only(t, plan.Make(made(piece("door", row.kind, row.fields)...)))
			got := []int{c.Clusters, c.Duplets, c.Balloons, c.Ties, c.Accents, c.AccentBalloons}
			assert.Equal(t, []int{row.clusters, row.duplets, row.balloons, row.ties, row.accents, row.inAccents}, got,
				"clusters, duplets, balloons, ties, accents, balloons in accents")
			assert.NotEmpty(t, c.Working)
			assert.Equal(t, "card/make/door", c.MakeKey)
			assert.Equal(t, "card/fix/door", c.FixKey)
		})
	}
}

func TestPiecesThatCannotBeCounted(t *testing.T) {
	rows := []struct {
		name, kind string
		fields     map[string]any
		balloons   int
		says       string
	}{
		{"no recipe", "garland", map[string]any{"recipe": ""}, 0, "no recipe"},
		{"no digits", "numbers", map[string]any{"digits": "  "}, 0, "no digits"},
		{"nothing typed", "free", nil, 0, "no balloons typed"},
		{"counts of 0", "free", map[string]any{"counts": []job.TypedCount{{SizeIn: 11, Colour: "coral"}}}, 0,
			"no balloons typed"},
		{"no colours", "tables", map[string]any{"count": 2, "each": 4}, 8, "no colours yet"},
		{"a colour that is not in the palette", "tables",
			map[string]any{"count": 2, "each": 4, "colours": shares("gone", 1.0)}, 8, "no longer in the palette"},
		{"a size there is not", "tables", map[string]any{"count": 2, "each": 4, "size_in": 7}, 8, "there are no 7-inch"},
		{"more than the size holds", "tables",
			map[string]any{"count": 2, "each": 4, "size_in": 5, "to_in": 10, "colours": shares("coral", 1.0)}, 8,
			"cannot be sized to"},
		{"letters in a number frame", "numbers",
			map[string]any{"digits": "A", "height_mm": 1000, "size_in": 5, "to_in": 4.5, "colours": shares("coral", 1.0)}, 0,
			"no digits"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(made(piece("door", row.kind, row.fields)...))
			c := only(t, p)
			assert.Equal(t, row.balloons, c.Balloons)
			assert.Equal(t, row.balloons > 0, c.MakeKey != "", "a card with a count of 0 is omitted")
			text := ""
			for _, n := range p.Notes {
				text += n.Text + "\n"
			}
			assert.Contains(t, text, row.says)
		})
	}
}

func TestLengthOfZeroIsAWarning(t *testing.T) {
	j := made(piece("door", "garland", nil)...)
	j.Pieces[0].LengthMM = 0 // not possible in a job file
	p := plan.Make(j)
	assert.Zero(t, only(t, p).Balloons)
	require.NotEmpty(t, p.Notes)
	assert.Contains(t, p.Notes[0].Text, "no length yet")
}

func TestHalfAKilometre(t *testing.T) {
	long := piece("long", "garland", map[string]any{"length_mm": 500000, "recipe": "2x11@9.5",
		"colours": shares("coral", 2.0, "ink", 1.0)})
	lorry := []job.Change{job.Put("kit/lorry", "kind", "car"), job.Put("kit/lorry", "name", "Lorry"),
		job.Put("kit/lorry", "litres", 30000)}
	c := only(t, plan.Make(made(append(lorry, long...)...)))
	assert.Equal(t, 3281, c.Clusters, "500 m over 0.1524 m is 3280.8")
	assert.Greater(t, len(c.Sections), 200)
	atVenue := plan.Make(made(long...))
	assert.Equal(t, 3281, only(t, atVenue).Clusters)
	assert.Len(t, only(t, atVenue).Sections, 1, "more than a usual car brings in thirty loads")
	assert.Equal(t, []string{"long"}, atVenue.BuiltOnSite())
}

// The plan counts as the calculators do.
func TestThePlanCountsAsTheCalculatorsDo(t *testing.T) {
	rows := []struct {
		calculator string
		in         map[string]string
		kind       string
		fields     map[string]any
		key        string
	}{
		{"clusters", map[string]string{"length": "21ft", "recipe": "2x11@10 + 1x18@16"}, "garland",
			map[string]any{"length_mm": 6400.8, "recipe": "2x11@10 + 1x18@16", "accents": 0}, "clusters"},
		{"column", map[string]string{"height": "7ft", "recipe": "3x11@10"}, "column",
			map[string]any{"height_mm": 2133.6, "recipe": "3x11@10"}, "clusters"},
		{"wall", map[string]string{"width": "8ft", "height": "8ft", "recipe": "2x11@9.5"}, "wall",
			map[string]any{"width_mm": 2438.4, "height_mm": 2438.4, "recipe": "2x11@9.5"}, "clusters"},
		{"wall", map[string]string{"width": "5ft", "height": "6ft", "recipe": "2x11@10 + 1x18@16"}, "wall",
			map[string]any{"width_mm": 1524, "height_mm": 1828.8, "recipe": "2x11@10 + 1x18@16"}, "clusters"},
	}
	for _, row := range rows {
		t.Run(row.calculator+" "+row.in["recipe"], func(t *testing.T) {
			calculator, known := calc.Find(row.calculator)
			require.True(t, known)
			result, err := calculator.Compute(nil, row.in, measure.Imperial)
			require.NoError(t, err)
			row.fields["colours"] = shares("coral", 1.0)
			c := only(t, plan.Make(made(piece("door", row.kind, row.fields)...)))
			assert.EqualValues(t, result.Outputs[row.key], c.Clusters)
		})
	}
}
