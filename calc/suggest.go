package calc

import (
	"maps"
	"strings"

	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// exampleFor returns an example that the input takes beside the other inputs: its own, or one like it. It returns "" if
// the input refuses them all. An error about another input counts as taken.
func (c *Calculator) exampleFor(key string, model *cluster.Model, raw map[string]string, s measure.System) string {
	in, _ := c.Input(key)
	tried := maps.Clone(raw)
	for _, example := range in.examples(s) {
		tried[key] = example
		_, err := c.compute(model, tried, s)
		if refused, is := err.(*InputError); !is || refused.Input != key {
			return example
		}
	}
	return ""
}

// exampleShares are the sizes of further examples, compared with the input's own: rough ones first, then those near by
// for an input that depends closely on another.
var exampleShares = [...]float64{2, 0.5, 4, 0.25, 0.1, 10, 0.9, 1.1, 0.8, 1.25, 1.5, 2.5, 3}

// examples returns the input's own example, and further ones of its kind.
func (in *Input) examples(s measure.System) []string {
	all := []string{in.ExampleIn(s)}
	var others []string
	switch in.Kind {
	case KindMeasured:
		others = []string{"12 in 2m", "12 in 1.5m", "12 in 1m", "12 in 5m", "12 in 80cm", "12 in 8m"}
	case KindLoads:
		others = []string{"sign 2kg", "sign 200g"}
	case KindPoints:
		others = []string{"0,0; 1,1"}
	}
	for _, other := range others {
		all = append(all, measure.InUnits(other, s))
	}
	if others != nil {
		return all
	}
	readAs := s
	if in.BareMetric {
		readAs = measure.Metric
	}
	value, err := in.read(in.Example, readAs)
	usual, isNumber := value.(float64)
	if err != nil || !isNumber {
		return all
	}
	for _, share := range exampleShares {
		if text := formatNumber(in.Kind, usual*share, readAs); in.check(usual*share) == nil {
			all = append(all, strings.ReplaceAll(text, "°", ""))
		}
	}
	return all
}
