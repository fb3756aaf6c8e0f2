package calc_test

import (
	"testing"

	"garlandry/calc"
)

// checkJSON has nothing to check: phones do not write JSON.
func checkJSON(*testing.T, calc.Calculator, calc.Result) {}
