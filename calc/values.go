package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
	"garlandry/calc/rig"
	"garlandry/calc/stock"
)

// Values are the inputs of one run, parsed and range-checked. A missing key has the zero value; see Has.
type Values struct{ given *given }

// given holds the inputs of one run.
type given struct {
	system measure.System
	inputs []Input
	items  map[string]any
	typed  map[string]string
	model  *cluster.Model // nil: recipes outside the table are estimated
}

// System is the unit system of notes and working.
func (v Values) System() measure.System { return v.given.system }

// Has reports whether the input was typed or has a default.
func (v Values) Has(key string) bool { _, ok := v.given.items[key]; return ok }

// assumed reports whether the input has its default, not something typed.
func (v Values) assumed(key string) bool { _, typed := v.given.typed[key]; return v.Has(key) && !typed }

// Number returns a single number in the unit of its kind.
func (v Values) Number(key string) float64 { x, _ := v.given.items[key].(float64); return x }

// Count returns a whole number: a count, money in hundredths or a balloon size.
func (v Values) Count(key string) int { n, _ := v.given.items[key].(int); return n }

// Text returns a choice or words.
func (v Values) Text(key string) string { t, _ := v.given.items[key].(string); return t }

// Flag returns whether the answer was yes.
func (v Values) Flag(key string) bool { b, _ := v.given.items[key].(bool); return b }

// Recipe returns the recipe of one cluster.
func (v Values) Recipe(key string) cluster.Recipe {
	r, _ := v.given.items[key].(cluster.Recipe)
	return r
}

// Bags returns the bags on offer.
func (v Values) Bags(key string) []stock.Bag { b, _ := v.given.items[key].([]stock.Bag); return b }

// Weights returns named shares.
func (v Values) Weights(key string) []Weight { w, _ := v.given.items[key].([]Weight); return w }

// Loads returns the loads of a bar.
func (v Values) Loads(key string) []Load { l, _ := v.given.items[key].([]Load); return l }

// Points returns the points of a curve.
func (v Values) Points(key string) []outline.Point {
	p, _ := v.given.items[key].([]outline.Point)
	return p
}

// Balloons returns loose balloons by size.
func (v Values) Balloons(key string) []Loose { l, _ := v.given.items[key].([]Loose); return l }

// Box returns the inside of something, or an opening.
func (v Values) Box(key string) Box { b, _ := v.given.items[key].(Box); return b }

// refuse returns an error about one input of this calculator.
func (v Values) refuse(key, why string, cause error) error {
	for i := range v.given.inputs {
		if in := &v.given.inputs[i]; in.Key == key {
			return in.problem(why, cause, v.System())
		}
	}
	return &InputError{Input: key, Message: oneLine(why), Cause: cause}
}

// blame returns an error about one input, with the text of its cause in the reader's units.
func (v Values) blame(key string, cause error) error {
	return v.refuse(key, measure.Reword(cause.Error(), v.System()), cause)
}

// needs returns an error if the input is missing; because says why it is needed.
func (v Values) needs(key, because string) error {
	if v.Has(key) {
		return nil
	}
	return v.refuse(key, "missing: "+because, nil)
}

// windPressure writes pascals for a person: as pascals, or as pounds on a square foot.
func (v Values) windPressure(pa float64) string {
	if v.System() == measure.Imperial {
		return v.say("{2} lb/sq ft", pa*measure.MMPerFoot*measure.MMPerFoot/1e6/rig.WeightN(measure.GramsPerPound))
	}
	return v.say("{1} Pa", pa)
}

// stiffness writes the stiffness of a bar, held in N mm², as N m² or lb ft².
func (v Values) stiffness(nmm2 float64) string {
	if v.System() == measure.Imperial {
		return v.say("{2} lb ft²", nmm2/(measure.MMPerFoot*measure.MMPerFoot)/rig.WeightN(measure.GramsPerPound))
	}
	return v.say("{2} N m²", nmm2/1e6)
}

// area writes square millimetres as square metres or square feet.
func (v Values) area(mm2 float64) string {
	if v.System() == measure.Imperial {
		return measure.FormatNumber(mm2/(measure.MMPerFoot*measure.MMPerFoot), 2) + " sq ft"
	}
	return measure.FormatNumber(mm2/1e6, 3) + " m²"
}
