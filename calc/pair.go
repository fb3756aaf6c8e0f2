package calc

import (
	"maps"

	"garlandry/calc/measure"
)

// Apart returns the inputs with a width and a height that were typed into one of them, such as "3 x 2 m", each in its
// own. It changes nothing for a calculator that does not ask for both.
func (c *Calculator) Apart(raw map[string]string, system measure.System) (map[string]string, error) {
	if _, asked := c.Input("width"); !asked {
		return raw, nil
	}
	if _, asked := c.Input("height"); !asked {
		return raw, nil
	}
	for _, key := range []string{"width", "height"} {
		if !measure.IsPair(raw[key]) {
			continue
		}
		width, height, err := measure.ParsePairMM(raw[key], system)
		if err != nil {
			in, _ := c.Input(key)
			return raw, in.problem(measure.Say(err, system), nil, system)
		}
		raw = maps.Clone(raw)
		raw["width"], raw["height"] = measure.ExactLength(width, system), measure.ExactLength(height, system)
		return raw, nil
	}
	return raw, nil
}
