package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan/rigging"
	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/page"
)

func TestMyOwnFigures(t *testing.T) {
	for _, row := range []struct {
		calculator string
		typed      []string
		figure     string
		want       float64
	}{
		{"spares", []string{"need", "200", "fail", "3,5 %"}, "breakage/practised", 3.5},
		{"spares", []string{"need", "200", "fail", "7"}, "breakage/beginner", 7},
		{"size", []string{"size", "18", "latex_g", "8.2g"}, "rubber/18", 8.2},
		{"lift", []string{"size", "11", "latex_g", "3.2"}, "rubber/11", 3.2},
		{"lift", []string{"size", "11", "cylinder_l", "20 L", "cylinder_bar", "150 bar"}, "supply/cylinder-bar", 150},
		{"car", []string{"litres", "1200", "clusters", "10", "packing", "48 %"}, "car/packing", 0.48},
		{"spares", []string{"need", "200", "fail", "9 of 200"}, "breakage/practised", 4.5},
		{"heat", []string{"size", "11", "to", "10in", "fill_temp", "10C", "show_temp", "35C", "growth", "1.2"},
			"heat/own", 1.2},
		{"lift", []string{"size", "11", "to", "11in", "gel", "8"}, "float/own", 8},
		{"lift", []string{"size", "11", "to", "11", "gas", "1.1"}, "gas/own", 1.1},
		{"dip", []string{"span", "3m", "loads", "sign 1kg", "test_weight", "1.5kg", "test_dip", "18mm", "visible", "150"},
			"bar/visible", 150},
	} {
		t.Run(row.calculator+" "+row.figure, func(t *testing.T) {
			v := demo(t).visitor(job.Owner, "Dora")
			v.calculate(row.calculator, row.typed...).submit(`[id="own-demo-`+strings.ReplaceAll(row.figure, "/", "-")+`"]`, nil)
			require.Equal(t, 200, v.reply.Status, v.text())
			held := v.current().Overrides[row.figure]
			require.NotNil(t, held.Value)
			assert.InDelta(t, row.want, *held.Value, 1e-9)
			assert.Contains(t, held.Note, "Measured: ")
		})
	}
	v := demo(t).visitor(job.Owner, "Dora")
	v.calculate("spares", "need", "200")
	assert.Zero(t, v.doc.Find("#calc-own").Length(), "without a measurement there is nothing to adopt")
	v.calculate("size", "size", "18", "latex_g", "80")
	assert.Zero(t, v.doc.Find("#calc-own").Length(), "that weight is impossible for an 18-inch")
	helper := v.world.visitor(job.Helper, "Bea")
	helper.calculate("spares", "need", "200", "fail", "7")
	assert.Zero(t, helper.doc.Find("#calc-own").Length(), "helpers may not change figures")
}

func TestABenchTestGoesIntoTheKit(t *testing.T) {
	w := demo(t)
	w.write(job.Author{Role: job.Owner}, page.Write{Job: "demo", Changes: []job.Change{
		job.Put("kit/bar", "kind", "frame"), job.Put("kit/bar", "name", "Long stand"), job.Put("kit/bar", "width_mm", 3000)}})
	v := w.visitor(job.Owner, "Dora")
	v.calculate("dip", "span", "3m", "loads", "sign 1kg", "test_span", "2.4", "test_weight", "1.55", "test_dip", "18",
		"test_stays", "6mm").
		submit("#own-demo-bar", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	k, _ := v.current().KitItem("bar")
	assert.Equal(t, []float64{2400, 1550, 18, 6, 3000},
		[]float64{k.TestedMM, k.TestWeightG, k.TestDipMM, k.TestStaysMM, k.WidthMM})
	assert.Equal(t, "Long stand", k.Name)
	assert.NoError(t, rigging.CheckBench(k))

	v.visit("/jobs/demo/kit").submit("#form-bar", map[string][]string{"bar.test_stays_mm": {"18 mm"}})
	assert.Equal(t, 422, v.reply.Status, "the dip did not go back without the weight")
	assert.Contains(t, v.doc.Find(".wronglist").Text(), "must be less than the dip")
}

func TestAMeasuredCarGoesIntoTheKit(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	cars := func() (n int, litres float64) {
		for _, k := range v.current1("demo").Kit {
			if k.Kind == "car" {
				n, litres = n+1, k.Litres
			}
		}
		return n, litres
	}
	v.calculate("car", "cargo", "180 x 110 x 85 cm", "clusters", "20")
	before := v.current1("demo")
	for _, k := range before.Kit {
		if k.Kind == "car" {
			v.world.write(job.Author{Role: job.Owner},
				page.Write{Job: "demo", Changes: []job.Change{job.Put("kit/"+k.ID, "removed", true)}})
		}
	}
	v.calculate("car", "cargo", "180 x 110 x 85 cm", "clusters", "20").submit("#own-demo-new", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	n, litres := cars()
	assert.Equal(t, 1, n)
	assert.Equal(t, 1683.0, litres)
	car := v.current1("demo").Kit[len(v.current().Kit)-1]
	v.calculate("car", "litres", "2000", "clusters", "20").submit("#own-demo-"+car.ID, nil)
	n, litres = cars()
	assert.Equal(t, 1, n, "the existing car must be changed")
	assert.Equal(t, 2000.0, litres)
}

func TestUseSizesAndSharesInAPiece(t *testing.T) {
	w := demo(t)
	w.write(
		job.Author{Role: job.Owner},
		page.Write{Job: "demo",
			Changes: []job.Change{job.Put("piece/bunch", "name", "Bunch"), job.Put("piece/bunch", "kind", "bouquets")}},
	)
	v := w.visitor(job.Owner, "Dora")
	v.calculate("size", "size", "16", "to", "14in").submit("#use-demo-bunch", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	bunch, _ := v.current().Piece("bunch")
	assert.Equal(t, 16, bunch.SizeIn)
	assert.InDelta(t, 14, bunch.ToIn, 0.01)

	v.calculate("heat", "size", "11", "to", "10in", "fill_temp", "15C", "show_temp", "35C").submit("#use-demo-bunch", nil)
	bunch, _ = v.current().Piece("bunch")
	assert.Equal(t, 11, bunch.SizeIn)
	assert.Less(t, bunch.ToIn, 10.0, "it must be filled smaller to reach 10")

	v.calculate("split", "total", "96", "weights", "coral 3, ink blue 2").submit("#use-demo-ring", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	ring, _ := v.current().Piece("ring")
	weights := map[string]float64{}
	for _, s := range ring.Colours {
		weights[s.Colour] = s.Weight
	}
	assert.Equal(t, map[string]float64{"coral": 3, "ink": 2}, weights)
	v.calculate("split", "total", "96", "weights", "coral 3, puce 2")
	assert.Zero(t, v.doc.Find("#calc-uses").Length(), "the job has no colour puce")

	v.calculate("accents", "length", "7 m", "recipe", "3x11@10", "accent", "2x5@4", "coverage", "97%").
		submit("#use-demo-door", nil)
	door, _ := v.current().Piece("door")
	assert.Equal(t, 97.0, door.AccentCoverPct)
}

func TestBagsOfACalculatorGoIntoTheShop(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.calculate("bags", "need", "219", "bags", "100:9.90, 50:5.60").submit("#own-demo-latex-11", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, "100 for 9.90, 50 for 5.60", v.current().Prices["latex/11"])
	assert.Contains(t, v.doc.Find("#shop-latex-11-coral summary").Text(), "1 bag of 100 and 1 bag of 50",
		"15.50 is less than 19.80 for two large bags")
}

// TestMeasuredHoursAndGrowthAreKept checks that measured float hours and growth are stored as own figures for every
// size.
func TestMeasuredHoursAndGrowthAreKept(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.calculate("lift", "size", "11", "to", "11in")
	plain := v.current1("demo")
	require.NotContains(t, plain.Overrides, "float/own")
	estimate := resultOf(t, "lift", map[string]string{"size": "11", "to": "11in"}).Number("float_h")
	v.calculate("lift", "size", "11", "to", "11in", "floated", "30 h").submit("#own-demo-float-own", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.InDelta(t, 30/estimate, *v.current1("demo").Overrides["float/own"].Value, 0.01)
	assert.Equal(t, "Measured: 30 h", v.current1("demo").Overrides["float/own"].Note)

	in := map[string]string{"size": "11", "to": "10in", "fill_temp": "10C", "show_temp": "35C"}
	became := 254 + 1.5*(resultOf(t, "heat", in).Number("show_diameter_mm")-254)
	v.calculate("heat", "size", "11", "to", "10in", "fill_temp", "10C", "show_temp", "35C", "became",
		measure.FormatNumber(became, 3)+" mm").
		submit("#own-demo-heat-own", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.InDelta(t, 1.5, *v.current1("demo").Overrides["heat/own"].Value, 0.01)

	// From now on both are used, and the page says that they are the owner's.
	v.calculate("lift", "size", "11", "to", "11in")
	assert.Contains(t, v.doc.Find("#calc-theirs").Text(), "measured by you")
	assert.Contains(t, v.doc.Find("#calc-theirs").Text(), "Measured: 30 h")
	assert.Contains(t, v.doc.Find("#result").Text(), "30 h")
	v.calculate("lift", "size", "11", "to", "11in", "gel", "1")
	assert.Zero(t, v.doc.Find("#calc-theirs").Length(), "typed input takes precedence")
	v.calculate("lift", "size", "11", "to", "11in", "floated", "40 h")
	assert.Zero(t, v.doc.Find("#calc-theirs").Length(), "and so does a new measurement")
	assert.NotContains(t, v.text(), "Reckon all its counts", "no push")

	v.calculate("lift", "size", "11", "to", "11in", "holds", "0.55 cu ft").submit("#own-demo-gas-own", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.InDelta(t, 1.1, *v.current1("demo").Overrides["gas/own"].Value, 0.01)
}

func resultOf(t *testing.T, name string, in map[string]string) calc.Result {
	t.Helper()
	c, known := calc.Find(name)
	require.True(t, known)
	result, err := c.Compute(nil, in, measure.Metric)
	require.NoError(t, err)
	return result
}

// TestCalculatorsUseMyFigures checks that calculators use the figures of the last job, but never show an error for a
// value that nobody typed.
func TestCalculatorsUseMyFigures(t *testing.T) {
	w := demo(t)
	w.write(
		job.Author{Role: job.Owner},
		page.Write{
			Job: "demo",
			Changes: []job.Change{job.Put("override/breakage/practised", "value", 7.5),
				job.Put("override/breakage/practised", "note", "counted in May"), job.Put("override/base/push", "value", 0.1)},
		},
	)
	v := w.visitor(job.Owner, "Dora")
	v.calculate("spares", "need", "200")
	assert.Contains(t, v.doc.Find("#calc-theirs").Text(), "Breaks: 7.5 (counted in May)")
	want := resultOf(t, "spares", map[string]string{"need": "200", "fail": "7.5"})
	assert.Contains(t, v.doc.Find("#result .big").First().Text(), measure.FormatNumber(want.Number("buy"), 0))
	v.calculate("clusters", "length", "3m", "recipe", "2x11@9.5")
	assert.Equal(t, 200, v.reply.Status)
	assert.Zero(t, v.doc.Find("#calc-theirs").Length(), "calculators do not accept a push of 0.1")
	w.write(job.Author{Role: job.Owner},
		page.Write{Job: "demo", Changes: []job.Change{job.Put("override/base/push", "value", 1.4)}})
	v.calculate("clusters", "length", "3m", "recipe", "2x11@9.5")
	assert.Contains(t, v.doc.Find("#calc-theirs").Text(), "1.4")
	v.calculate("clusters", "length", "3m", "recipe", "2x11@9.5", "measured", "21 in 3m")
	assert.Zero(t, v.doc.Find("#calc-theirs").Length())
	assert.Equal(t, 200, v.reply.Status, v.text())
}

// TestCalculateWithTheKit checks that a calculator can use measurements from the kit beside typed input.
func TestCalculateWithTheKit(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.visit("/calc/dip?units=metric&span=2.2&loads=sign+2kg")
	link := v.doc.Find(`#calc-kit a:contains("Wide frame")`)
	require.Equal(t, 1, link.Length(), v.text())
	v.visit(link.AttrOr("href", ""))
	require.Equal(t, 200, v.reply.Status, v.text())
	want := resultOf(
		t,
		"dip",
		map[string]string{"span": "2.2m", "loads": "sign 2kg", "test_span": "2.4m", "test_weight": "1.55kg",
			"test_dip": "18mm", "test_stays": "6mm"},
	)
	assert.Contains(t, v.doc.Find("#result .big").First().Text(),
		measure.FormatThinLength(want.Number("dip_mm"), measure.Metric))
	v.visit("/calc/car?cargo=140+x+100+x+80+cm&clusters=20")
	link = v.doc.Find(`#calc-kit a:contains("Borrowed van")`)
	require.Equal(t, 1, link.Length(), v.text())
	v.visit(link.AttrOr("href", ""))
	assert.Equal(t, "12000", v.doc.Find(`[name="litres"]`).AttrOr("value", ""))
	assert.Empty(t, v.doc.Find(`[name="cargo"]`).AttrOr("value", ""))
	v.visit("/calc/dip")
	assert.Equal(t, 1, v.doc.Find("#calc-kit").Length(), "the kit must also be offered with the example")
	assert.Zero(t, v.doc.Find("#calc-own").Length())
}
