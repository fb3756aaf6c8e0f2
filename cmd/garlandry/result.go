package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"text/tabwriter"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// exampleLine returns a working command for a calculator.
func exampleLine(c calc.Calculator) string {
	words := []string{"garlandry calc", c.Name}
	for _, in := range c.Example.Inputs {
		text := in.Key + "=" + in.Text
		if strings.ContainsAny(in.Text, " '\"()*;<>|&$") {
			text = in.Key + "=" + quoted(in.Text)
		}
		words = append(words, text)
	}
	return strings.Join(words, " ")
}

// quoted wraps a text for a POSIX shell.
func quoted(text string) string { return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'" }

func printResult(s stdio, asJSON bool, c calc.Calculator, r calc.Result, system measure.System) error {
	if asJSON {
		data, err := c.JSON(r)
		if err != nil {
			return fmt.Errorf("write %s as JSON: %w", c.Name, err)
		}
		var pretty bytes.Buffer
		if err := json.Indent(&pretty, data, "", "  "); err != nil {
			return fmt.Errorf("write %s as JSON: %w", c.Name, err)
		}
		_, err = s.out.Write(append(escapeJSON(pretty.Bytes()), '\n'))
		return err
	}
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	say(w, "%s\n\n", c.Purpose)
	for _, used := range r.Used {
		if in, known := c.Input(used.Key); known && used.Assumed {
			say(w, "  %s\t%s   (assumed)\n", used.Key, in.DefaultText(system))
			continue
		}
		say(w, "  %s\t%s\n", used.Key, used.Text)
	}
	fmt.Fprintln(w)
	for _, o := range c.Outputs {
		if v, there := r.Outputs[o.Key]; there {
			say(w, "  %s\t%s\n", o.Label, calc.Format(o.Kind, v, system))
		}
	}
	if len(r.Working) > 0 {
		fmt.Fprintln(w, "\nThe maths")
		for _, line := range r.Working {
			say(w, "  %s\t%s\t%s\n", line.Label, line.Formula, line.Value)
		}
	}
	if err := w.Flush(); err != nil {
		return fmt.Errorf("print: %w", err)
	}
	for _, note := range r.Notes {
		say(s.out, "\nNote: %s\n", note)
	}
	for _, care := range c.Cautions {
		say(s.out, "\nTake care: %s\n", care)
	}
	for i, src := range r.Sources {
		say(s.out, pick(i == 0, "\nSources\n  %s (%s)\n", "  %s (%s)\n"), src.Text, src.Mark)
	}
	return nil
}
