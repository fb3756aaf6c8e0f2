package plan_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc"
	"garlandry/calc/measure"
)

func compute(t *testing.T, name string, in map[string]string) calc.Result {
	t.Helper()
	c, known := calc.Find(name)
	require.True(t, known, name)
	result, err := c.Compute(nil, in, measure.Metric)
	require.NoError(t, err)
	return result
}

// The card of a frame outdoors gives the calculator's take-down wind for the weights that the plan packs.
func TestTheTakeDownWindIsTheCalculators(t *testing.T) {
	outside := []job.Change{job.Put("brief", "place", "outdoors"), job.Put("kit/cloth", "kind", "other"),
		job.Put("kit/cloth", "name", "Linen cloth"), job.Put("kit/cloth", "count", 1)}
	p := plan.Make(job.Try(onFrame("garland", map[string]any{"length_mm": 3000}, 3000),
		append(outside, job.Put("kit/stand", "weight_g", 8000))))
	weights := packLines(p)["pack/tool/foot-weights"].Need
	tip := compute(t, "tip", map[string]string{"width": "3m", "height": "2.2m",
		"weight": strconv.Itoa(8+10*weights) + "kg", "base_depth": "600mm",
		"wind": "5 m/s", "push": "50 N", "push_at": "1.2m", "ground": "steel feet on concrete"})
	assert.Equal(t, "holds", tip.Outputs["verdict"])
	steps := strings.Join(cards(p)["card/frame/stand"].Steps, "\n")
	assert.Contains(t, steps, "With "+strconv.Itoa(weights)+" weights of 10 kg on its feet: get ready at gusts of "+
		measure.FormatSpeed(tip.Number("watch_mps"), measure.Metric)+", take it down and clear people away at "+
		measure.FormatSpeed(tip.Number("take_down_mps"), measure.Metric)+". The venue")
	bare := compute(t, "tip", map[string]string{"width": "3m", "height": "2.2m", "weight": "8kg", "base_depth": "600mm",
		"wind": "6.25 m/s", "push": "50 N", "push_at": "1.2m", "ground": "steel feet on concrete"})
	assert.Equal(t, 2*int(math.Ceil(bare.Number("ballast_kg")/20)), weights,
		"as many weights of 10 kg as the calculator adds, in pairs")

	inside := plan.Make(onFrame("garland", map[string]any{"length_mm": 3000}, 3000))
	assert.NotContains(t, strings.Join(cards(inside)["card/frame/stand"].Steps, "\n"), "gusts")
}

func TestAColumnOutdoorsComesDownInWind(t *testing.T) {
	of := func(place string) string {
		p := plan.Make(made(append(piece("pole", "column",
			map[string]any{"height_mm": 1800, "count": 2, "recipe": "2x11@9", "colours": shares("coral", 1.0)}),
			job.Put("brief", "place", place), job.Put("brief", "units", "metric"))...))
		return strings.Join(cards(p)["card/fix/pole"].Steps, "\n")
	}
	words := of("outdoors")
	assert.Contains(t, words, " of 10 kg on its feet: get ready at gusts of ")
	assert.Regexp(t, `clear people away at (5|5\.\d|6|6\.\d) m/s`, words,
		"the 5 m/s expected, and a little for whole weights")
	assert.NotContains(t, of("indoors"), "gusts")
}

func TestALineHasNoVerdictOverPeople(t *testing.T) {
	words := func(more ...job.Change) string {
		p := plan.Make(benched(append(theSign(1500), more...)...))
		return strings.Join(cards(p)["card/sign/sign"].Steps, "\n") + packLines(p)["pack/supply/fishing-line"].Reason
	}
	clear := job.Put("choice/overhead/sign", "pick", "clear")
	for name, text := range map[string]string{"not asked yet": words(),
		"people": words(job.Put("choice/overhead/sign", "pick", "people"))} {
		assert.Contains(t, text, "rated points and a licensed rigger", name)
		assert.NotContains(t, text, "holds.", name)
	}
	line := compute(t, "line", map[string]string{"weight": "1.5kg", "strength": "90 N"})
	text := words(clear)
	assert.Contains(t, text, "each pulls "+measure.FormatForce(line.Number("per_line_n"), measure.Metric)+" of "+
		measure.FormatForce(line.Number("allowed_n"), measure.Metric)+" allowed: "+line.Outputs["verdict"].(string)+".")
	assert.Contains(t, words(clear, job.Put("kit/sign", "weight_g", 5000)), "do not use")
	assert.Contains(t, words(clear, job.Put("kit/sign", "weight_g", 0)), "Weigh it")
	asked := false
	for _, n := range plan.Make(benched(theSign(1500)...)).Notes {
		asked = asked || n.Key == "overhead/sign" && len(n.Options) == 2
	}
	assert.True(t, asked)
}
