package latex_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/latex"
)

// unit returns a skin whose pressure is the bare shape (1/L - 1/L⁷)(1 + k L²).
func unit(plus, minus float64) latex.Skin {
	return latex.Skin{RadiusMM: 600, ThicknessMM: 600 / (2 * plus), PlusPa: plus, MinusPa: minus}
}

// turn finds the stretch between two others at which the pressure stops rising (or falling).
func turn(k latex.Skin, from, to float64) float64 {
	slope := func(l float64) float64 { return k.StretchPressurePa(l+1e-6) - k.StretchPressurePa(l-1e-6) }
	rising := slope(from) > 0
	for range 60 {
		middle := (from + to) / 2
		if (slope(middle) > 0) == rising {
			from = middle
		} else {
			to = middle
		}
	}
	return from
}

// TestNeoHookeanMaximum checks the maximum at 7^(1/6), found by calculus. Merritt & Weinhaus, Am. J. Phys. 46 (1978)
// 976, find 1.38 (from memory).
func TestNeoHookeanMaximum(t *testing.T) {
	k := unit(1000, 0)
	at := turn(k, 1.05, 3)
	assert.InDelta(t, math.Pow(7, 1.0/6), at, 1e-5)
	assert.InDelta(t, 0.619732, k.StretchPressurePa(at), 1e-6)
}

// TestMooneyRivlinTurns checks Müller & Strehlow, Rubber and Rubber Balloons (2004), k = 0.1: one maximum and one
// minimum. The numbers were computed from the formula outside this project.
func TestMooneyRivlinTurns(t *testing.T) {
	k := unit(latex.MooneyPlusPa, latex.MooneyMinusPa)
	top, bottom := turn(k, 1.05, 2.5), turn(k, 2, 5)
	assert.InDelta(t, 1.4761, top, 1e-4)
	assert.InDelta(t, 0.74531, k.StretchPressurePa(top), 1e-5)
	assert.InDelta(t, 3.1426, bottom, 1e-4)
	assert.InDelta(t, 0.63181, k.StretchPressurePa(bottom), 1e-5)
}

// TestPressureDoesTheRubbersWork checks that the work of the pressure equals the stored energy, p dV = dW, with the
// Mooney-Rivlin energy written independently of the pressure.
func TestPressureDoesTheRubbersWork(t *testing.T) {
	k := latex.Skin{RadiusMM: 20, ThicknessMM: 0.25}
	energy := func(l float64) float64 { // joule in the whole skin
		perVolume := latex.MooneyPlusPa/2*(2*l*l+math.Pow(l, -4)-3) +
			latex.MooneyMinusPa/2*(math.Pow(l, 4)+2*math.Pow(l, -2)-3)
		return perVolume * 4 * math.Pi * 0.02 * 0.02 * 0.25e-3
	}
	for _, l := range []float64{1.05, 1.4761, 2, 3.1426, 4, 5} {
		const step = 1e-5
		volume := func(l float64) float64 { return 4 * math.Pi / 3 * math.Pow(0.02*l, 3) }
		want := (energy(l+step) - energy(l-step)) / (volume(l+step) - volume(l-step))
		assert.InEpsilon(t, want, k.PressurePa(40*l), 1e-6, l)
	}
	// 5.6 kPa at the maximum and 4.7 kPa at the minimum for this skin, computed outside this project.
	assert.InDelta(t, 5590, k.StretchPressurePa(1.4761), 10)
	assert.InDelta(t, 4740, k.StretchPressurePa(3.1426), 10)
}

func TestSlackSkinHasNoPressure(t *testing.T) {
	s, _ := latex.Find(11)
	k := s.Skin()
	assert.Zero(t, k.PressurePa(2*k.RadiusMM))
	assert.Zero(t, k.PressurePa(10))
	assert.Zero(t, latex.Skin{}.PressurePa(280))
	assert.Zero(t, k.PressurePa(math.NaN()))
}

// TestPressureOfTheWorkhorse checks measured pressures: party balloons have about 2 to 4 kPa, 15 to 30 mmHg (from
// memory), large ones less, five-inch ones more.
func TestPressureOfTheWorkhorse(t *testing.T) {
	s, ok := latex.Find(11)
	require.True(t, ok)
	b, err := latex.Describe(s, s.DecorToMM())
	require.NoError(t, err)
	assert.InDelta(t, 3000, b.PressurePa, 1000)
}

// TestRubberIsAsDenseAsRubber checks that natural rubber has a relative density of 0.93 at room temperature
// (Thermopedia, "Natural rubber"). The pure hydrocarbon has 0.9064.
func TestRubberIsAsDenseAsRubber(t *testing.T) {
	assert.Greater(t, latex.RubberDensity, 0.9064)
	assert.Less(t, latex.RubberDensity, 0.93)
}

// TestSkinWeighsTheLatex checks that the skin's mass is the table's latex mass.
func TestSkinWeighsTheLatex(t *testing.T) {
	for _, s := range latex.Sizes() {
		k := s.Skin()
		if s.Modelling() {
			assert.Zero(t, k)
			continue
		}
		grams := 4 * math.Pi * k.RadiusMM * k.RadiusMM * k.ThicknessMM / 1000 * latex.RubberDensity
		assert.InEpsilon(t, s.LatexG, grams, 1e-12)
	}
}
