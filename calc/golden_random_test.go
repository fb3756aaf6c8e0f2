package calc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"garlandry/calc"
	"garlandry/calc/latex"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
)

// Inputs drawn from seeds give the same whole numbers, verdicts, refusals and figures
// to six digits natively and in wasm: the file was written natively, and both read it.
// What is refused is drawn again, but for every twentieth.
func TestRandomGoldens(t *testing.T) {
	const each = 120
	var b strings.Builder
	for _, c := range calc.All() {
		for seed := range uint64(each) {
			random := rand.New(rand.NewPCG(seed, 3))
			line, accepted := "", false
			for try := 0; try < 40 && !accepted; try++ {
				line, accepted = drawnLine(c, seed, inputs(random, c, seed%2 == 0))
				accepted = accepted || seed%20 == 0
			}
			b.WriteString(line)
		}
	}
	cases, refused := each*len(calc.All()), strings.Count(b.String(), "refused")
	t.Logf("%d of %d cases are refusals", refused, cases)
	assert.Less(t, refused, cases/20)
	againstGolden(t, "random", b.String())
}

// inputs are all that the calculator must have and most of what it may have.
func inputs(random *rand.Rand, c calc.Calculator, first bool) map[string]string {
	raw := map[string]string{}
	for _, in := range c.Inputs {
		if in.Required || random.IntN(6) > 0 {
			raw[in.Key] = drawn(random, in, raw)
		}
	}
	either(raw, first)
	return raw
}

// either leaves out one of two ways to say a thing where both would be refused.
func either(raw map[string]string, first bool) {
	for key := range raw {
		bench, tube := strings.HasPrefix(key, "test_"), strings.HasPrefix(key, "tube_")
		if bench && first || tube && !first || key == "measured" && first {
			delete(raw, key)
		}
	}
	if raw["measured"] != "" {
		delete(raw, "push")
	}
}

// drawn is text for the input: within its range, more often near its lower end, and
// for one balloon within what its size takes.
func drawn(random *rand.Rand, in calc.Input, raw map[string]string) string {
	pools := map[calc.Kind][]string{
		calc.KindRecipe: {
			"2x11@9.5",
			"3x11@10",
			"1x11@8",
			"2x11@10 + 1x18@16",
			"1x11@9 + 1x24@20",
			"2x5@4 + 2x11@10 + 1x18@15",
			"6x11@10",
			"1x36@30",
			"3x5@4.5 + 3x11@10",
		},
		calc.KindSize:     {"5", "9", "11", "16", "18", "24", "36"},
		calc.KindFlag:     {"yes", "no"},
		calc.KindBags:     {"100:9.90, 50:5.60, 25:3.20", "72:7.10, 15:1.99", "7:1, 11:1.5, 13:1.7"},
		calc.KindWeights:  {"3, 2, 1", "coral 5.3, sand 2.4, blush 2.3", "1, 1, 1, 1, 1, 1, 1"},
		calc.KindLoads:    {"3kg", "sign 2kg @ 0.3m, cloth 1kg along", "1kg from 0.1m to 0.4m"},
		calc.KindPoints:   {"0,0; 1.2,0.8; 2.4,0", "0,0; 3,1"},
		calc.KindBalloons: {"120 x 11@10, 40 x 5", "7 x 36"},
		calc.KindBox:      {"140 x 100 x 80 cm", "3 x 1.7 x 1.8 m", "90 x 70 cm", "1200 l"},
		calc.KindMeasured: {"12 in 3.1m", "20 in 10ft", "9 in 2.2m"},
	}
	if pool := pools[in.Kind]; pool != nil {
		return pool[random.IntN(len(pool))]
	}
	if in.Kind == calc.KindChoice {
		return in.Choices[random.IntN(len(in.Choices))]
	}
	share := random.Float64()
	x := in.Min + (in.Max-in.Min)*share*share*share*share
	switch in.Kind {
	case calc.KindCount:
		return strconv.Itoa(int(math.Round(x)))
	case calc.KindSizedTo:
		return strconv.FormatFloat((0.35+0.75*share)*sizeDrawn(raw).FullIn, 'f', 1, 64)
	}
	if in.Key == "latex_g" {
		x = (0.4 + 2*share) * sizeDrawn(raw).LatexG
	}
	return measure.FormatNumber(x, 3) + " " + siUnits[in.Kind]
}

func sizeDrawn(raw map[string]string) latex.Size {
	nominal, _ := strconv.Atoi(raw["size"])
	size, _ := latex.Find(nominal)
	return size
}

// drawnLine is what a run tells, or its refusal.
func drawnLine(c calc.Calculator, seed uint64, raw map[string]string) (line string, accepted bool) {
	line = fmt.Sprintf("%s %d ->", c.Name, seed)
	result, err := c.Compute(raw, measure.Metric)
	if err != nil {
		key, _, _ := strings.Cut(err.Error(), ":")
		return line + " refused: " + key + "\n", false
	}
	return line + told(c, result) + "\n", true
}
