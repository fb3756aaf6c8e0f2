package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/exact"
)

// TestFunctionsMatchTheLibrary compares with the standard library, another implementation.
func TestFunctionsMatchTheLibrary(t *testing.T) {
	for i := -4000; i <= 4000; i++ {
		x := float64(i) / 100
		assert.InEpsilon(t, math.Exp(x), exact.Exp(x), 1e-14, "exp %g", x)
		y := math.Exp(x)
		assert.InDelta(t, math.Log(y), exact.Log(y), 1e-13, "log %g", y)
	}
	assert.True(t, math.IsNaN(exact.Log(0)))
	assert.True(t, math.IsInf(exact.Exp(701), 1))
	assert.Zero(t, exact.Exp(-701))
}

// TestQuantileTurnsBack inverts the quantile with the standard library's error function.
func TestQuantileTurnsBack(t *testing.T) {
	for _, p := range []float64{1e-12, 1e-6, 0.001, 0.02, 0.074, 0.076, 0.3, 0.5, 0.8413447461, 0.925, 0.99, 1 - 1e-6} {
		z := exact.Quantile(p)
		assert.InEpsilon(t, p, 0.5*math.Erfc(-z/math.Sqrt2), 3e-6, "p %g, z %g", p, z)
	}
	assert.InDelta(t, 1, exact.Quantile(0.8413447461), 1e-6)
}
