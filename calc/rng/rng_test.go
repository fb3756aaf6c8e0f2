package rng_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/rng"
)

// TestReferenceNumbers checks the first numbers of SplitMix64 from seed 1234567, as in the reference implementation by
// Vigna (from memory).
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
	plain, named := rng.New(0xaf63dc4c8601ec8c), rng.Named(0, "a") // FNV-1a of "a", as its authors publish it
	assert.Equal(t, plain.Next(), named.Next())
}
