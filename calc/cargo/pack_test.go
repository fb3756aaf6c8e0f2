package cargo_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cargo"
)

// estate is an estate car with the rear seats folded.
var estate = cargo.Space{LengthMM: 1700, WidthMM: 1050, HeightMM: 750, DoorWidthMM: 1000, DoorHeightMM: 700}

func ExamplePack() {
	answer, err := cargo.Pack(estate, cargo.Load{
		Balls:      []cargo.Balls{{Name: "accents", DiameterMM: 250, Count: 30}},
		Sections:   []cargo.Sections{{Name: "arch base", LengthMM: 5570, AcrossMM: 500, Count: 1}},
		SqueezePct: cargo.CommonSqueezePct,
	})
	fmt.Println(answer.Fits, answer.Trips, answer.LongestMM, err)
	for _, cut := range answer.Cuts {
		fmt.Printf("%s: %d parts of %.0f mm\n", cut.Name, cut.Parts, cut.PartMM)
	}
	// Output:
	// false 2 1876 <nil>
	// arch base: 3 parts of 1857 mm
}

func TestPackCases(t *testing.T) {
	box := cargo.Space{LengthMM: 2000, WidthMM: 1000, HeightMM: 1000}
	low := cargo.Space{LengthMM: 2000, WidthMM: 1000, HeightMM: 500}
	balls := func(mm float64, count int) []cargo.Balls { return []cargo.Balls{{"a", mm, count, 0}} }
	sections := func(length, across float64, count int) []cargo.Sections {
		return []cargo.Sections{{"s", length, across, count, cargo.Filling{}}}
	}
	for _, row := range []struct {
		name    string
		space   cargo.Space
		load    cargo.Load
		trips   int
		fits    bool
		refused []cargo.Refusal
		cuts    []cargo.Cut
	}{
		{"nothing", box, cargo.Load{}, 0, true, nil, nil},
		{"none of a kind", box, cargo.Load{Balls: balls(5000, 0), Sections: sections(9000, 300, 0)}, 0, true, nil, nil},
		{"sixteen in rows", box, cargo.Load{Balls: balls(500, 16)}, 1, true, nil, nil},
		{"one more than in rows", box, cargo.Load{Balls: balls(500, 17)}, 2, false, nil, nil},
		{"straight sections, four lanes", box, cargo.Load{Sections: sections(2000, 500, 4)}, 1, true, nil, nil},
		{"five, of which two go in at once", box, cargo.Load{Sections: sections(2000, 592, 5)}, 3, false, nil, nil},
		{"one section more", box, cargo.Load{Sections: sections(2000, 500, 5)}, 2, false, nil, nil},
		{"half sections and half balls", box, cargo.Load{Balls: balls(500, 8), Sections: sections(2000, 500, 2)}, 1, true,
			nil, nil},
		{"a little more than half each", box, cargo.Load{Balls: balls(500, 9), Sections: sections(2000, 500, 2)}, 2, false,
			nil, nil},
		{"whole things do not fill up halves", box, cargo.Load{Sections: []cargo.Sections{{"thick", 2000, 1000, 1,
			cargo.Filling{}}, {"thin", 2000, 500, 5, cargo.Filling{}}}}, 3, false, nil, nil},
		{"too thick for the door", cargo.Space{LengthMM: 2000, WidthMM: 1000, HeightMM: 1000, DoorWidthMM: 900,
			DoorHeightMM: 400}, cargo.Load{Balls: balls(410, 3)}, 0, false, []cargo.Refusal{{"a", 3, cargo.DoorTooNarrow}}, nil},
		{"squeezed through the door", cargo.Space{LengthMM: 2000, WidthMM: 1000, HeightMM: 1000, DoorWidthMM: 900,
			DoorHeightMM: 400}, cargo.Load{Balls: balls(410, 3), SqueezePct: 10}, 1, true, nil, nil},
		{"too thick for the space", box, cargo.Load{Sections: sections(1500, 1001, 1)}, 0, false,
			[]cargo.Refusal{{"s", 1, cargo.SpaceTooNarrow}}, nil},
		{"pressed into the space", box, cargo.Load{Sections: sections(1500, 1001, 1), SqueezePct: 1}, 1, true, nil, nil},
		{"too long, cut in three", box, cargo.Load{Sections: sections(6000, 1000, 1)}, 3, false, nil,
			[]cargo.Cut{{"s", 1, 3, 2000, 6000}}},
		{"bulky things share the litres: 525 and 3 of 125 in 1000", low,
			cargo.Load{Balls: balls(500, 3), Sections: sections(2100, 500, 1)}, 1, true, nil, nil},
		{"one ball more than is left", low, cargo.Load{Balls: balls(500, 4), Sections: sections(2100, 500, 1)}, 2, false,
			nil, nil},
		{"small balls go where bulky things leave litres", low, cargo.Load{Balls: balls(250, 25),
			Sections: sections(2100, 500, 1)}, 1, true, nil, nil},
		{"litres beside measures: half the lanes", cargo.Space{LengthMM: 2000, WidthMM: 1000, HeightMM: 1000, Litres: 1000},
			cargo.Load{Sections: sections(2000, 500, 3)}, 2, false, nil, nil},
		{"litres alone: a cube of a metre", cargo.Space{Litres: 1000}, cargo.Load{Balls: balls(500, 8)}, 1, true, nil, nil},
		{"litres beside measures: wheel arches take a quarter", cargo.Space{LengthMM: 2000, WidthMM: 1000, HeightMM: 1000,
			Litres: 1500}, cargo.Load{Balls: balls(500, 13)}, 2, false, nil, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			answer, err := cargo.Pack(row.space, row.load)
			require.NoError(t, err)
			assert.Equal(t, row.trips, answer.Trips)
			assert.Equal(t, row.fits, answer.Fits)
			assert.Equal(t, row.refused, answer.Refused)
			assert.Equal(t, row.cuts, answer.Cuts)
		})
	}
}

func TestPackRefuses(t *testing.T) {
	nan := math.NaN()
	ok := cargo.Space{Litres: 500}
	for _, row := range []struct {
		name  string
		space cargo.Space
		load  cargo.Load
		wrong error
	}{
		{"no space", cargo.Space{}, cargo.Load{}, cargo.ErrNoSpace},
		{"a side missing", cargo.Space{LengthMM: 1000, WidthMM: 1000}, cargo.Load{}, cargo.ErrNoSpace},
		{"a side missing, litres do not replace it", cargo.Space{LengthMM: 1000, Litres: 500}, cargo.Load{},
			cargo.ErrNoSpace},
		{"negative side", cargo.Space{LengthMM: -1000, WidthMM: 1000, HeightMM: 1000}, cargo.Load{}, cargo.ErrMeasure},
		{"side not a number", cargo.Space{LengthMM: nan, WidthMM: 1000, HeightMM: 1000}, cargo.Load{}, cargo.ErrMeasure},
		{"a hangar", cargo.Space{LengthMM: 30_000, WidthMM: 1000, HeightMM: 1000}, cargo.Load{}, cargo.ErrMeasure},
		{"litres not a number", cargo.Space{Litres: nan}, cargo.Load{}, cargo.ErrMeasure},
		{"a spoonful", cargo.Space{Litres: 0.01}, cargo.Load{}, cargo.ErrMeasure},
		{"door not a number", cargo.Space{Litres: 500, DoorWidthMM: nan}, cargo.Load{}, cargo.ErrMeasure},
		{"squeeze", ok, cargo.Load{SqueezePct: 31}, cargo.ErrMeasure},
		{"ball of no size", ok, cargo.Load{Balls: []cargo.Balls{{"a", 0, 1, 0}}}, cargo.ErrMeasure},
		{"a negative number of balls", ok, cargo.Load{Balls: []cargo.Balls{{"a", 300, -1, 0}}}, cargo.ErrCount},
		{"section of no thickness", ok, cargo.Load{Sections: []cargo.Sections{{"s", 1000, 0, 1, cargo.Filling{}}}},
			cargo.ErrMeasure},
		{"section of no length", ok, cargo.Load{Sections: []cargo.Sections{{"s", 0, 300, 1, cargo.Filling{}}}},
			cargo.ErrMeasure},
		{"too many sections", ok, cargo.Load{Sections: []cargo.Sections{{"s", 1000, 300, 100_001, cargo.Filling{}}}},
			cargo.ErrCount},
		{"no air", ok, cargo.Load{Clusters: []cargo.Clusters{{"c", 600, 1, cargo.Filling{0, 240}}}}, cargo.ErrMeasure},
		{"air not a number", ok, cargo.Load{Clusters: []cargo.Clusters{{"c", 600, 1, cargo.Filling{nan, 240}}}},
			cargo.ErrMeasure},
		{"no balloon", ok, cargo.Load{Sections: []cargo.Sections{{"s", 1000, 300, 1, cargo.Filling{20, 0}}}},
			cargo.ErrMeasure},
		{"reach", ok, cargo.Load{Clusters: []cargo.Clusters{{"c", 0, 1, cargo.Filling{20, 240}}}}, cargo.ErrMeasure},
		{"a negative number of clusters", ok, cargo.Load{Clusters: []cargo.Clusters{{"c", 600, -1, cargo.Filling{20, 240}}}},
			cargo.ErrCount},
		{"packed tighter than full", ok, cargo.Load{Packing: 1.1}, cargo.ErrMeasure},
		{"too many kinds", ok, cargo.Load{Balls: make([]cargo.Balls, 101)}, cargo.ErrCount},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := cargo.Pack(row.space, row.load)
			require.ErrorIs(t, err, row.wrong)
		})
	}
}

func drawSpace(t *rapid.T) cargo.Space {
	side := func(name string) float64 { return rapid.Float64Range(200, 5000).Draw(t, name) }
	space := cargo.Space{LengthMM: side("length"), WidthMM: side("width"), HeightMM: side("height")}
	if rapid.Bool().Draw(t, "door") {
		space.DoorWidthMM, space.DoorHeightMM = side("door width"), side("door height")
	}
	if rapid.Bool().Draw(t, "litres too") {
		space.Litres = space.LengthMM * space.WidthMM * space.HeightMM / 1e6 * rapid.Float64Range(0.2, 1).Draw(t, "usable")
		space.Litres = math.Max(1, space.Litres)
	}
	return space
}

func drawLoad(t *rapid.T) cargo.Load {
	return cargo.Load{
		Balls: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) cargo.Balls {
			mm := rapid.Float64Range(80, 900).Draw(t, "diameter")
			air := rapid.Float64Range(0.8, 1.5).Draw(t, "air of the sphere") * math.Pi / 6 * math.Pow(mm, 3) / 1e6
			return cargo.Balls{"balls", mm, rapid.IntRange(0, 200).Draw(t, "balls"), air}
		}), 0, 3).Draw(t, "loose"),
		Clusters: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) cargo.Clusters {
			return cargo.Clusters{
				"clusters", rapid.Float64Range(80, 900).Draw(t, "reach"), rapid.IntRange(0, 200).Draw(t, "clusters"),
				cargo.Filling{rapid.Float64Range(0.5, 200).Draw(t, "air"), rapid.Float64Range(50, 600).Draw(t, "balloon")},
			}
		}), 0, 3).Draw(t, "clusters"),
		Sections: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) cargo.Sections {
			return cargo.Sections{
				"section", rapid.Float64Range(200, 9000).Draw(t, "length"),
				rapid.Float64Range(100, 900).Draw(t, "across"), rapid.IntRange(0, 12).Draw(t, "sections"),
				rapid.SampledFrom([]cargo.Filling{{}, {20, 240}, {90, 254}, {300, 600}}).Draw(t, "filling"),
			}
		}), 0, 3).Draw(t, "sections"),
		SqueezePct: rapid.Float64Range(0, 20).Draw(t, "squeeze"),
	}
}

func TestPackLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		space, load := drawSpace(t), drawLoad(t)
		answer, err := cargo.Pack(space, load)
		require.NoError(t, err)
		litres, refused, loaded := 0.0, 0, 0
		for _, share := range answer.Shares {
			litres += share.Litres
			loaded += share.Count
		}
		for _, cut := range answer.Cuts {
			loaded -= cut.Count * (cut.Parts - 1)
			assert.InEpsilon(t, cut.LengthMM, float64(cut.Parts)*cut.PartMM, 1e-12)
		}
		for _, refusal := range answer.Refused {
			refused += refusal.Count
		}
		all := 0
		for _, balls := range load.Balls {
			all += balls.Count
		}
		for _, clusters := range load.Clusters {
			all += clusters.Count
		}
		for _, sections := range load.Sections {
			all += sections.Count
		}
		assert.Equal(t, all, loaded+refused, "everything is loaded or refused")
		assert.InDelta(t, litres, answer.Litres, 1e-6)
		assert.LessOrEqual(t, answer.Litres, float64(answer.Trips)*answer.SpaceLitres*(1+1e-6), "trips must hold the load")

		if len(answer.Refused) == 0 && len(answer.Cuts) == 0 {
			more := load
			small, extra := rapid.Float64Range(50, 150).Draw(t, "small"), rapid.IntRange(1, 50).Draw(t, "extra")
			more.Balls = append([]cargo.Balls{{"one more", small, extra, 0}}, load.Balls...)
			fuller, err := cargo.Pack(space, more)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, fuller.Trips, answer.Trips, "more load cannot take fewer trips")
		}
	})
}

// TestALargerSpaceNeverTakesMoreTrips tries one kind of thing at a time. Mixed loads of whole things can pack worse
// into shares of a larger space.
func TestALargerSpaceNeverTakesMoreTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		space := drawSpace(t)
		space.Litres = 0
		larger := space
		larger.LengthMM += rapid.Float64Range(0, 500).Draw(t, "more length")
		larger.WidthMM += rapid.Float64Range(0, 500).Draw(t, "more width")
		larger.HeightMM += rapid.Float64Range(0, 500).Draw(t, "more height")
		for _, load := range []cargo.Load{
			{Balls: []cargo.Balls{{"balls", rapid.Float64Range(80, 900).Draw(t, "diameter"), 100, 0}}},
			{Sections: []cargo.Sections{{"section", rapid.Float64Range(200, 9000).Draw(t, "length"),
				rapid.Float64Range(100, 900).Draw(t, "across"), 10, cargo.Filling{}}}},
			{Clusters: []cargo.Clusters{{"clusters", 200, 30, cargo.Filling{rapid.Float64Range(2, 600).Draw(t, "air"),
				rapid.Float64Range(80, 900).Draw(t, "largest balloon")}}}},
		} {
			answer, err := cargo.Pack(space, load)
			require.NoError(t, err)
			better, err := cargo.Pack(larger, load)
			require.NoError(t, err)
			if len(answer.Refused) == 0 && len(answer.Cuts) == 0 {
				assert.LessOrEqual(t, better.Trips, answer.Trips)
				assert.Empty(t, better.Refused)
				assert.Empty(t, better.Cuts)
			}
			assert.GreaterOrEqual(t, better.LongestMM, answer.LongestMM)
		}
	})
}

func FuzzPack(f *testing.F) {
	f.Add(1700.0, 1050.0, 750.0, 0.0, 700.0, 610.0, 20, 1390.0, 500.0, 4, 10.0)
	f.Add(100.0, 100.0, 100.0, 1.0, 10.0, 10.0, 100_000, 1e6, 10.0, 100_000, 0.0)
	f.Fuzz(
		func(t *testing.T, length, width, height, litres, door, diameter float64, balls int, section, across float64,
			sections int, squeeze float64) {
			answer, err := cargo.Pack(
				cargo.Space{length, width, height, litres, door, door},
				cargo.Load{Balls: []cargo.Balls{{"balls", diameter, balls, 0}},
					Clusters: []cargo.Clusters{{"clusters", diameter, balls, cargo.Filling{section, across}}},
					Sections: []cargo.Sections{{"section", section, across, sections, cargo.Filling{}}}, SqueezePct: squeeze},
			)
			if err != nil {
				return
			}
			assert.GreaterOrEqual(t, answer.Trips, 0)
			assert.False(t, math.IsNaN(answer.Litres) || math.IsInf(answer.Litres, 0))
			assert.False(t, math.IsNaN(answer.LongestMM))
		},
	)
}

func BenchmarkPack(b *testing.B) {
	load := cargo.Load{
		Balls:      []cargo.Balls{{"clusters", 610, 20, 0}, {"accents", 250, 60, 0}},
		Sections:   []cargo.Sections{{"base", 5570, 500, 2, cargo.Filling{}}},
		SqueezePct: 10,
	}
	for b.Loop() {
		if _, err := cargo.Pack(estate, load); err != nil {
			b.Fatal(err)
		}
	}
}
