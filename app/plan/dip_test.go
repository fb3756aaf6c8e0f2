package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
	"garlandry/calc"
	"garlandry/calc/measure"
)

// benched returns a job with a bar that was tested at 3 m: it dipped 18 mm under 1.55 kg, of which 6 mm stayed.
func benched(more ...job.Change) job.Job {
	changes := append([]job.Change{job.Put("kit/stand", "test_weight_g", 1550), job.Put("kit/stand", "test_dip_mm", 18),
		job.Put("kit/stand", "test_stays_mm", 6)}, more...)
	return job.Try(onFrame("garland", map[string]any{"length_mm": 3000, "accents": 0}, 3000), changes)
}

func theSign(massG float64) []job.Change {
	return []job.Change{job.Put("kit/sign", "kind", "other"), job.Put("kit/sign", "name", "Light sign"),
		job.Put("kit/sign", "count", 1), job.Put("kit/sign", "weight_g", massG)}
}

func TestBenchTestVerdict(t *testing.T) {
	for _, row := range []struct {
		name    string
		more    []job.Change
		verdict string
		kind    string
		says    string
	}{
		{"a garland alone", nil, "holds", "info", "under door ("},
		{"a sign that shows", theSign(5000), "holds, but the dip shows", "warning", "Light sign (5 kg)"},
		{"a sign too heavy", theSign(9000), "do not use", "warning", "shorten the span"},
		{"a sign of unknown weight", theSign(0), "holds", "info", "Not counted: Light sign"},
		{"a stricter own figure", []job.Change{job.Put("override/bar/visible", "value", 500)},
			"holds, but the dip shows", "warning", "shows from 0.6 cm"},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(benched(row.more...))
			card := cards(p)["card/frame/stand"]
			words := strings.Join(card.Steps, "\n")
			assert.Contains(t, words, ": "+row.verdict+". It shows from")
			assert.Contains(t, words, row.says)
			careful := false
			for _, c := range card.Cautions {
				careful = careful || c.Key == "bar"
			}
			assert.True(t, careful, "every bar has its caution")
			noted := false
			for _, n := range p.Notes {
				noted = noted || n.Kind == row.kind && strings.Contains(n.Text, ": "+row.verdict+". It shows from")
			}
			assert.True(t, noted, "%v", p.Notes)
		})
	}
}

func TestNoVerdictWithoutABenchTest(t *testing.T) {
	for name, j := range map[string]job.Job{
		"never tested":      onFrame("garland", map[string]any{"length_mm": 3000}, 3000),
		"stays as it dips":  benched(job.Put("kit/stand", "test_stays_mm", 18)),
		"no span":           benched(job.Put("kit/stand", "tested_mm", 0)),
		"a hoop has no bar": benched(job.Put("kit/stand", "name", "Hoop stand")),
	} {
		p := plan.Make(j)
		assert.NotContains(t, asJSON(t, p.Notes)+asJSON(t, p.Cards), "By its bench test", name)
	}
	assert.Error(t, rigging.CheckBench(job.Kit{TestedMM: 3000, TestWeightG: 1550, TestDipMM: 18, TestStaysMM: 18}))
	assert.Error(t, rigging.CheckBench(job.Kit{TestWeightG: 1550, TestDipMM: 18}), "no span")
	assert.Error(t, rigging.CheckBench(job.Kit{TestedMM: 3000, TestWeightG: 1550}), "no dip")
	assert.NoError(t, rigging.CheckBench(job.Kit{TestedMM: 3000, TestWeightG: 1550, TestDipMM: 18}))
	assert.NoError(t, rigging.CheckBench(job.Kit{}))
}

// The plan's dip equals the calculator's for the same bar and weights. The garland's weight is checked by hand: its
// balloons and ties by the tables, and a few per cent for the compressed air.
func TestTheBarDipsAsInTheCalculator(t *testing.T) {
	p := plan.Make(benched(theSign(2000)...))
	working := map[string]figures.Line{}
	for _, l := range cards(p)["card/frame/stand"].Working {
		working[l.What] = l
	}
	text := working["Dips"].How
	at := strings.Index(text, "door (")
	require.GreaterOrEqual(t, at, 0, text)
	massText := text[at+len("door (") : strings.Index(text, ")")]
	mass, err := measure.ParseMassG(massText, measure.Metric)
	require.NoError(t, err)
	c := p.Pieces[0]
	rubber := 2.9*float64(c.Balloons) + 1.5*float64(c.Ties)
	assert.Greater(t, mass, rubber)
	assert.Less(t, mass, 1.15*rubber)

	dip, _ := calc.Find("dip")
	result, err := dip.Compute(nil,
		map[string]string{"span": "3m", "loads": "garland " + massText + " along, sign 2kg @ 1.5m",
			"test_weight": "1.55kg", "test_dip": "18mm", "test_stays": "6mm"},
		measure.Metric,
	)
	require.NoError(t, err)
	want := measure.FormatSmallLength(result.Number("dip_mm"), measure.Metric)
	assert.Equal(t, want, working["Dips"].Result)
	assert.Equal(t, measure.FormatSmallLength(result.Number("limit_mm"), measure.Metric), working["Shows from"].Result)
}
