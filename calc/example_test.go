package calc_test

import (
	"fmt"
	"strings"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// This is what a page or the command line does: find a calculator, give it the typed text, and write the answer.
func ExampleFind() {
	c, _ := calc.Find("clusters")
	result, err := c.Compute(nil, map[string]string{"length": "10ft", "recipe": "2x11@9.5"}, measure.Imperial)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, out := range c.Outputs[:2] {
		fmt.Println(out.Label+":", out.Format(result.Outputs[out.Key], measure.Imperial))
	}
	// Output:
	// Clusters: 20
	// Balloons: 80
}

func ExampleCalculator_Compute_refused() {
	for _, length := range []string{"far", "10ft"} {
		_, err := computeNamed("clusters", map[string]string{"length": length}, measure.Metric)
		for line := range strings.SplitSeq(err.Error(), "; ") {
			fmt.Println(line)
		}
	}
	// Output:
	// length: cannot read "far" (no number in it): write a length such as 3.2 m, 320 cm or 10 ft 6 in
	// allowed: 0.05 m to 500 m
	// for example length=10ft
	// recipe: missing
	// allowed: 1 to 8 duplets of the sizes 5 to 36
	// for example recipe="2x11@10 + 1x18@16"
}
