package calc_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// siFigure finds a figure in a unit that somebody who thinks in feet does not read.
var siFigure = regexp.MustCompile(`\d ?(N|kN|Pa|kPa|hPa|bar|m/s|km/h|kg|g|mm|cm|m|m²|m2|L|l|litres?|°C)([^\w/²]|$)`)

// TestResultsInFeetAreInFeet walks all calculators and checks outputs, notes and drawings. Formulas under "Show the
// maths" may have SI units.
func TestResultsInFeetAreInFeet(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			for i, typed := range walk(c, 200) {
				result, err := c.Compute(nil, typed, measure.Imperial)
				if err != nil {
					continue
				}
				texts := shownWithoutTheMaths(c, result)
				if i%20 == 0 {
					texts = append(texts, drawnTexts(result)...)
				}
				for _, text := range texts {
					assert.NotRegexp(t, siFigure, text, "%v", typed)
				}
			}
		})
	}
}

// TestDefaultsInFeetAreInFeet checks how defaults are shown. An input that is named after its unit keeps it.
func TestDefaultsInFeetAreInFeet(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			text := in.DefaultText(measure.Imperial)
			if in.BareMetric {
				assert.Equal(t, in.DefaultText(measure.Metric), text, "%s %s", c.Name, in.Key)
				continue
			}
			assert.NotRegexp(t, siFigure, text, "%s %s", c.Name, in.Key)
		}
	}
}

func shownWithoutTheMaths(c calc.Calculator, result calc.Result) []string {
	texts := append([]string(nil), result.Notes...)
	for _, out := range c.Outputs {
		texts = append(texts, out.Format(result.Outputs[out.Key], measure.Imperial))
	}
	return texts
}

// drawnTexts returns the words of a picture. Laying out balloons takes a while.
func drawnTexts(result calc.Result) []string {
	picture := result.Picture()
	if picture == nil {
		return nil
	}
	var texts []string
	for _, shape := range picture.Shapes {
		texts = append(texts, shape.Text)
	}
	return append(texts, picture.Title, picture.Note)
}
