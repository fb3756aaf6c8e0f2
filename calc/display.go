package calc

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/calc/measure"
)

// Format writes a value of a kind for a person, in their units. Values are those of Result.Outputs; an unknown type of
// value gives "".
func Format(kind Kind, value any, s measure.System) string {
	switch value := value.(type) {
	case string:
		return value
	case bool:
		if value {
			return "yes"
		}
		return "no"
	case int:
		if kind == KindMoney {
			return measure.FormatMoney(value)
		}
		return formatNumber(kind, float64(value), s)
	case float64:
		return formatNumber(kind, value, s)
	case []int:
		texts := make([]string, len(value))
		for i, n := range value {
			texts[i] = strconv.Itoa(n)
		}
		return strings.Join(texts, ", ")
	case []float64:
		texts := make([]string, len(value))
		for i, x := range value {
			texts[i] = formatNumber(kind, x, s)
		}
		return strings.Join(texts, ", ")
	}
	return ""
}

func formatNumber(kind Kind, x float64, s measure.System) string {
	if m := formatOf(kind); m != nil {
		return m.write(x, s)
	}
	return measure.FormatNumber(x, 3)
}

// Format writes the output's value for a person, in their units.
func (o Output) Format(value any, s measure.System) string {
	return Format(o.Kind, value, s)
}

// DefaultText returns the default in the reader's units: "20 °C" or "68 °F"; in metric ones where the key names the
// unit. Kinds that are not a single number keep their text.
func (in *Input) DefaultText(s measure.System) string {
	if in.Default == "" {
		return ""
	}
	value, err := in.read(in.Default, measure.Metric)
	number, isNumber := value.(float64)
	if err != nil || !isNumber {
		return in.Default
	}
	if in.BareMetric {
		s = measure.Metric
	}
	return formatNumber(in.Kind, number, s)
}

// ExampleIn returns the input's example in the units of s, as round numbers. Where the key names the unit, which is a
// metric one, only metric units take the place of others.
func (in *Input) ExampleIn(s measure.System) string {
	if in.BareMetric && s == measure.Imperial {
		return in.Example
	}
	return measure.InUnits(in.Example, s)
}

// ExampleIn returns the example in the units of s. Its story is left out where it tells of other numbers or units, and
// what it expects where its inputs differ.
func (c *Calculator) ExampleIn(s measure.System) Example {
	e := Example{Story: c.Example.Story, Expect: c.Example.Expect, Inputs: slices.Clone(c.Example.Inputs)}
	if !measure.Speaks(e.Story, s) {
		e.Story = ""
	}
	for i := range e.Inputs {
		entry := &e.Inputs[i]
		in, _ := c.Input(entry.Key)
		in.Example = entry.Text
		if entry.Text = in.ExampleIn(s); entry.Text != in.Example {
			e.Story, e.Expect = "", nil
		}
	}
	return e
}

func whole(n int) string { return strconv.Itoa(n) }
