package rng_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/rng"
)

// The standard library's functions are another implementation.
func TestFunctionsMatchTheLibrary(t *testing.T) {
	for i := -4000; i <= 4000; i++ {
		x := float64(i) / 100
		assert.InEpsilon(t, math.Exp(x), rng.Exp(x), 1e-14, "exp %g", x)
		y := math.Exp(x)
		assert.InDelta(t, math.Log(y), rng.Log(y), 1e-13, "log %g", y)
	}
	assert.True(t, math.IsNaN(rng.Log(0)))
	assert.True(t, math.IsInf(rng.Exp(701), 1))
	assert.Zero(t, rng.Exp(-701))
}

// The quantile turned back by the error function of the standard library.
func TestQuantileTurnsBack(t *testing.T) {
	for _, p := range []float64{1e-12, 1e-6, 0.001, 0.02, 0.074, 0.076, 0.3, 0.5, 0.8413447461, 0.925, 0.99, 1 - 1e-6} {
		z := rng.Quantile(p)
		assert.InEpsilon(t, p, 0.5*math.Erfc(-z/math.Sqrt2), 3e-6, "p %g, z %g", p, z)
	}
	assert.InDelta(t, 1, rng.Quantile(0.8413447461), 1e-6)
}

// The first numbers of SplitMix64 from seed 1234567, as in the reference
// implementation by Vigna (from memory).
func TestReferenceNumbers(t *testing.T) {
	s := rng.New(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423} {
		assert.Equal(t, want, s.Next())
	}
}

func TestStreams(t *testing.T) {
	s := rng.New(1)
	counts := make([]int, 7)
	sum, squares := 0.0, 0.0
	const draws = 70_000
	for range draws {
		counts[s.Below(7)]++
		z := s.Normal()
		sum += z
		squares += z * z
	}
	for _, count := range counts {
		assert.InDelta(t, draws/7, count, 500) // five standard errors
	}
	assert.InDelta(t, 0, sum/draws, 0.02)
	assert.InDelta(t, 1, squares/draws, 0.03)
	a, b := rng.Named(1, "a"), rng.Named(1, "b")
	assert.NotEqual(t, a.Next(), b.Next())
}
