package phrase_test

import (
	"fmt"

	"garlandry/app/plan/phrase"
)

func ExampleAnd() {
	for _, list := range [][]string{nil, {"Ines"}, {"Ines", "Bea"}, {"Ines", "Bea", "Tomasz"}} {
		fmt.Printf("%q\n", phrase.And(list))
	}
	// Output:
	// ""
	// "Ines"
	// "Ines and Bea"
	// "Ines, Bea and Tomasz"
}
