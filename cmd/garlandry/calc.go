package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"text/tabwriter"

	"garlandry/calc"
	"garlandry/calc/measure"
)

type calcCommand struct {
	Name   string   `arg:"" optional:"" help:"Calculator. Leave it out for the list."`
	Inputs []string `arg:"" optional:"" help:"Inputs as key=value, written as you would: length=10ft recipe='2x11@10 + 1x18@16'."`
	JSON   bool     `help:"Print JSON, in SI units."`
	Metric bool     `help:"Numbers without a unit are metres, centimetres and degrees Celsius; else feet, inches and Fahrenheit."`
}

// Run prints the list, or one calculator's result.
func (c *calcCommand) Run(s streams) error {
	if c.Name == "" {
		return listCalculators(s, c.JSON)
	}
	calculator, known := calc.Find(c.Name)
	if !known {
		return usageError{fmt.Errorf("there is no calculator %q; garlandry calc lists them: %s", c.Name, strings.Join(calculatorNames(), ", "))}
	}
	system := measure.Imperial
	if c.Metric {
		system = measure.Metric
	}
	raw := map[string]string{}
	for _, pair := range c.Inputs {
		key, value, found := strings.Cut(pair, "=")
		if !found {
			return usageError{fmt.Errorf("%q is not key=value; for example %s", pair, exampleLine(calculator))}
		}
		raw[key] = value
	}
	result, err := calculator.Compute(raw, system)
	if err != nil {
		return usageError{err}
	}
	return printResult(s, c.JSON, calculator, raw, result, system)
}

func calculatorNames() []string {
	var names []string
	for _, c := range calc.All() {
		names = append(names, c.Name)
	}
	return names
}

func listCalculators(s streams, asJSON bool) error {
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

func printJSON(s streams, value any) error {
	e := json.NewEncoder(s.out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(value)
}
