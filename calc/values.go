package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
	"garlandry/calc/stock"
)

// Values are the inputs of one run, read and range-checked. Asking for a key
// that was left out gives the zero value; Has tells the difference.
type Values struct {
	System measure.System // what figures in notes and working are written in
	inputs []Input
	items  map[string]any
	typed  map[string]string
}

// Has reports whether the input was typed or has a default.
func (v Values) Has(key string) bool { _, ok := v.items[key]; return ok }

// Number is a single number in the unit of its kind.
func (v Values) Number(key string) float64 { x, _ := v.items[key].(float64); return x }

// Count is a whole number: a count, money in hundredths or a balloon size.
func (v Values) Count(key string) int { n, _ := v.items[key].(int); return n }

// Text is a choice or words.
func (v Values) Text(key string) string { t, _ := v.items[key].(string); return t }

// Flag is yes or no.
func (v Values) Flag(key string) bool { b, _ := v.items[key].(bool); return b }

// Recipe is what one cluster is made of.
func (v Values) Recipe(key string) cluster.Recipe {
	r, _ := v.items[key].(cluster.Recipe)
	return r
}

// Bags are the bags on offer.
func (v Values) Bags(key string) []stock.Bag { b, _ := v.items[key].([]stock.Bag); return b }

// Weights are named shares.
func (v Values) Weights(key string) []Weight { w, _ := v.items[key].([]Weight); return w }

// Loads are what hangs on a bar.
func (v Values) Loads(key string) []Load { l, _ := v.items[key].([]Load); return l }

// Points are the points of a curve.
func (v Values) Points(key string) []outline.Point {
	p, _ := v.items[key].([]outline.Point)
	return p
}

// Balloons are loose balloons by size.
func (v Values) Balloons(key string) []Loose { l, _ := v.items[key].([]Loose); return l }

// Box is the inside of something, or an opening.
func (v Values) Box(key string) Box { b, _ := v.items[key].(Box); return b }

// refuse makes the error about one input of this calculator.
func (v Values) refuse(key, why string, cause error) error {
	for _, in := range v.inputs {
		if in.Key == key {
			return in.problem(why, cause, v.System)
		}
	}
	return &InputError{Input: key, Message: oneLine(why), Cause: cause}
}

// needs refuses when an input that this way of asking needs was left out.
func (v Values) needs(key, because string) error {
	if v.Has(key) {
		return nil
	}
	return v.refuse(key, "missing: "+because, nil)
}

func (v Values) length(mm float64) string { return measure.FormatLength(mm, v.System) }

func (v Values) small(mm float64) string { return measure.FormatSmallLength(mm, v.System) }

func (v Values) thin(mm float64) string { return measure.FormatThinLength(mm, v.System) }

// area writes square millimetres as square metres or square feet.
func (v Values) area(mm2 float64) string {
	if v.System == measure.Imperial {
		return measure.FormatNumber(mm2/(measure.MMPerFoot*measure.MMPerFoot), 2) + " sq ft"
	}
	return measure.FormatNumber(mm2/1e6, 3) + " m²"
}

func (v Values) mass(grams float64) string { return measure.FormatMass(grams, v.System) }
