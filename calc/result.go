package calc

import (
	"math"
	"strconv"
	"strings"

	"garlandry/calc/measure"
)

// Line is one step of the working: its label, formula and value.
type Line struct {
	Label, Formula, Value string
}

// Result is the answer of a calculator.
type Result struct {
	// Outputs has the output keys of the calculator, without those that say "only with" something that was not given.
	// Values are float64, int, string, []int, []float64 or bool, in the unit that the key names.
	Outputs map[string]any
	// Notes are sentences to show, most important first; may be empty.
	Notes []string
	// Working leads from inputs to outputs, in order.
	Working []Line
	// Drawing is to scale. It is nil if there is nothing to draw, or if balloons must be laid out first. Picture gives
	// both.
	Drawing *Drawing
	layOut  func() *Drawing
	units   measure.System // what steps and notes are written in
	// Sources names the rules and figures behind the outputs, in the order of their use. It may be empty.
	Sources []Source
	// Used lists every input with the value used, in the calculator's order, without missing ones. Compute fills it in.
	Used []Entry
}

// note adds a sentence and fills its gaps; see say.
func (r *Result) note(pattern string, figures ...float64) {
	text, _ := say(r.units, pattern, figures)
	r.Notes = append(r.Notes, text)
}

// figures sets outputs. keys are separated by blanks, in the order of values.
func (r *Result) figures(keys string, values ...float64) {
	for i, key := range strings.Fields(keys) {
		r.Outputs[key] = values[i]
	}
}

// counts is like figures, for whole numbers.
func (r *Result) counts(keys string, values ...int) {
	for i, key := range strings.Fields(keys) {
		r.Outputs[key] = values[i]
	}
}

// Picture returns the drawing to scale, or nil if there is nothing to draw. Every balloon is where calc/picture puts
// it, at the pitch of the counts: it shows what you buy. It takes 0.02 to 25 ms natively, four times as long in wasm,
// and is the same for the same inputs.
func (r Result) Picture() *Drawing {
	if r.layOut != nil {
		return r.layOut()
	}
	return r.Drawing
}

// step adds a line of the working. The figures fill the gaps of formula, then those of value. The label has no gaps.
func (r *Result) step(label, formula, value string, figures ...float64) {
	formula, figures = say(r.units, formula, figures)
	value, _ = say(r.units, value, figures)
	r.Working = append(r.Working, Line{Label: label, Formula: formula, Value: value})
}

// Number returns an output as a number, 0 if it is missing or not a number.
func (r Result) Number(key string) float64 {
	switch value := r.Outputs[key].(type) {
	case float64:
		return value
	case int:
		return float64(value)
	}
	return 0
}

// settle rounds floats to ten significant digits, so that phone and server print the same. It returns the first key
// whose figure is not finite, or "".
func (r *Result) settle(outputs []Output) (bad string) {
	for _, out := range outputs {
		switch value := r.Outputs[out.Key].(type) {
		case float64:
			if math.IsNaN(value) || math.IsInf(value, 0) {
				return out.Key
			}
			r.Outputs[out.Key] = tenDigits(value)
		case []float64:
			for i, x := range value {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					return out.Key
				}
				value[i] = tenDigits(x)
			}
		}
	}
	return ""
}

func tenDigits(x float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64)
	if err != nil || rounded == 0 {
		return 0
	}
	return rounded
}
