package form

import (
	"slices"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// The fields in which a person may type a width and a height at once.
const (
	wide = "width_mm"
	high = "height_mm"
)

// apart returns the form with a width and a height that were typed into one field, such as "3 x 2 m", each in its own.
// What was typed last as a pair counts, so the other field's text gives way.
func apart(n *job.Noun, fields []string, v Values, units measure.System) (Values, *problem) {
	if !slices.Contains(fields, wide) || !slices.Contains(fields, high) {
		return v, nil
	}
	for _, name := range []string{wide, high} {
		f, known := n.Field(name)
		text := clean(v.Get(name), false)
		if !known || f.Kind != job.Length || len(text) > MaxTyped || !measure.IsPair(text) {
			continue
		}
		width, height, err := measure.ParsePairMM(text, units)
		if err != nil {
			return v, at(name, measure.Say(err, units))
		}
		v = v.Clone()
		v.Set(wide, measure.ExactLength(width, units))
		v.Set(high, measure.ExactLength(height, units))
		return v, nil
	}
	return v, nil
}
