package calc_test

import (
	"fmt"
	"strings"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// ExampleFind does what a page or the command line does: it finds a calculator, passes the typed text, and writes the
// answer.
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
	// length: cannot read "far" (no number in it): write a length
	// allowed: 0.05 m to 500 m
	// for example length="3 m"
	// recipe: missing
	// allowed: 1 to 8 duplets of the sizes 5 to 36
	// for example recipe="2x11@10 + 1x18@16"
}
