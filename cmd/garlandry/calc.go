package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"garlandry/calc"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

type calcCommand struct {
	Name   string   `arg:"" optional:"" help:"Calculator. Leave it out for the list."`
	Inputs []string `arg:"" optional:"" help:"Inputs as key=value: length=10ft recipe='2x11@10 + 1x18@16'."`
	JSON   bool     `help:"Print JSON, in SI units."`
	Metric bool     `help:"Read numbers without a unit as metres, centimetres and degrees Celsius."`
}

// Run prints the list, or one calculator's result.
func (c *calcCommand) Run(s stdio) error {
	if c.Name == "" {
		return listCalculators(s, c.JSON)
	}
	calculator, known := calc.Find(c.Name)
	if !known {
		return usageError{
			fmt.Errorf("there is no calculator %q; garlandry calc lists them: %s; for example %s", c.Name,
				strings.Join(calculatorNames(), ", "), exampleLine(calc.All()[0])),
		}
	}
	system := measure.Imperial
	if c.Metric {
		system = measure.Metric
	}
	raw, err := readPairs(calculator, c.Inputs, system)
	if err != nil {
		return usageError{err}
	}
	result, err := calculator.Compute(&cluster.Model{AtOnce: true}, raw, system)
	if err != nil {
		return usageError{err}
	}
	return printResult(s, c.JSON, calculator, result, system)
}

// readPairs parses key=value. Unlike an empty field of a page, a key without a value is an error.
func readPairs(c calc.Calculator, pairs []string, system measure.System) (map[string]string, error) {
	raw := map[string]string{}
	for _, pair := range pairs {
		key, value, _ := strings.Cut(pair, "=")
		key = strings.ToLower(strings.TrimSpace(key))
		if _, twice := raw[key]; twice {
			return nil, fmt.Errorf("%q is given twice; for example %s", key, exampleLine(c))
		}
		raw[key] = value
		if strings.TrimSpace(value) != "" {
			continue
		}
		for _, in := range c.Inputs {
			if in.Key == key {
				allowed := "allowed: " + in.Range(system)
				if in.Range(system) == "" {
					allowed = cmp.Or(strings.TrimSuffix(in.Help, "."), in.Label)
				}
				return nil, fmt.Errorf("%s: no value, write key=value; %s; for example %s", key, allowed, exampleLine(c))
			}
		}
		return nil, fmt.Errorf("%q is not key=value; for example %s", pair, exampleLine(c))
	}
	return raw, nil
}

// flagsLast moves the flags of a calc command behind its inputs: people write them anywhere, but the parser takes no
// input after a flag.
func flagsLast(args []string) []string {
	if len(args) == 0 || args[0] != "calc" || slices.Contains(args, "--") {
		return args
	}
	var inputs, flags []string
	for _, arg := range args {
		if strings.HasPrefix(arg, "--") {
			flags = append(flags, arg)
		} else {
			inputs = append(inputs, arg)
		}
	}
	return append(inputs, flags...)
}

func calculatorNames() []string {
	var names []string
	for _, c := range calc.All() {
		names = append(names, c.Name)
	}
	return names
}

func listCalculators(s stdio, asJSON bool) error {
	if asJSON {
		type row struct {
			Name    string `json:"name"`
			Purpose string `json:"purpose"`
		}
		rows := []row{}
		for _, c := range calc.All() {
			rows = append(rows, row{c.Name, c.Purpose})
		}
		return printJSON(s, rows)
	}
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	for _, c := range calc.All() {
		fmt.Fprintf(w, "%s\t%s\n\t%s\n", c.Name, c.Purpose, exampleLine(c))
	}
	return w.Flush()
}

func printJSON(s stdio, value any) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(value); err != nil {
		return err
	}
	_, err := s.out.Write(escapeJSON(text.Bytes()))
	return err
}
