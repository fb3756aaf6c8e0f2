package calc

import (
	"errors"
	"slices"
	"strings"

	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// Compute parses what a person typed, fills in defaults, checks ranges and runs the calculator. Blank text counts as
// missing. system is the system of bare numbers, notes and working; Outputs never depend on it. Every error is an
// *InputError of one line.
//
// model computes recipes that are not in the table. Until it has done so, and if it is nil, they are estimated and a
// note says so.
func (c *Calculator) Compute(model *cluster.Model, raw map[string]string, system measure.System) (Result, error) {
	if system != measure.Imperial {
		system = measure.Metric
	}
	result, err := c.compute(model, raw, system)
	if refused, is := err.(*InputError); is && refused.Example != "" {
		refused.Example = c.exampleFor(refused.Input, model, raw, system)
	}
	return result, err
}

// compute is Compute with examples that were not tried beside the other inputs.
func (c *Calculator) compute(model *cluster.Model, raw map[string]string, system measure.System) (Result, error) {
	if err := c.known(raw, system); err != nil {
		return Result{}, err
	}
	raw, err := c.Apart(raw, system)
	if err != nil {
		return Result{}, err
	}
	values := Values{&given{system, c.Inputs, map[string]any{}, map[string]string{}, model}}
	result := Result{Outputs: map[string]any{}, units: system, Used: make([]Entry, 0, len(c.Inputs))}
	for i := range c.Inputs {
		in := &c.Inputs[i]
		text, readAs := strings.TrimSpace(raw[in.Key]), system
		assumed := text == ""
		if in.BareMetric {
			readAs = measure.Metric
		}
		if assumed && in.Required {
			return Result{}, in.problem("missing", nil, system)
		}
		if assumed {
			text, readAs = in.Default, measure.Metric
		}
		if text == "" {
			continue
		}
		value, err := in.read(text, readAs)
		if err != nil {
			return Result{}, in.problem(err.Error(), err, system)
		}
		values.given.items[in.Key] = value
		if !assumed {
			values.given.typed[in.Key] = text
		}
		result.Used = append(result.Used, Entry{in.Key, text, assumed})
	}
	if err := c.Run(values, &result); err != nil {
		return Result{}, c.asInputError(err, system)
	}
	if bad := result.settle(c.Outputs); bad != "" {
		return Result{}, c.Inputs[0].problem("these inputs together give no sensible "+bad, nil, system)
	}
	return result, nil
}

// known returns an error if raw has a key that the calculator does not have. It names the first one in sorted order.
func (c *Calculator) known(raw map[string]string, system measure.System) error {
	var strange []string
	for key := range raw {
		if _, ok := c.Input(key); !ok {
			strange = append(strange, key)
		}
	}
	if len(strange) == 0 {
		return nil
	}
	slices.Sort(strange)
	keys := make([]string, len(c.Inputs))
	for i := range c.Inputs {
		keys[i] = c.Inputs[i].Key
	}
	first := &c.Inputs[0]
	return &InputError{
		Input: shortKey(strange[0]),
		Message: c.Name + " has no such input; allowed: " + strings.Join(keys, ", ") +
			"; for example " + first.Key + "=" + quoted(first.ExampleIn(system)),
	}
}

func shortKey(key string) string {
	runes := []rune(oneLine(key))
	if len(runes) > 40 {
		return string(runes[:40]) + "..."
	}
	if len(runes) == 0 {
		return "(no name)"
	}
	return string(runes)
}

// asInputError converts an error of Run that names no input to one about the first input.
func (c *Calculator) asInputError(err error, system measure.System) error {
	if known, is := errors.AsType[*InputError](err); is {
		return known
	}
	return c.Inputs[0].problem(err.Error(), err, system)
}
