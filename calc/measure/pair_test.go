package measure_test

import (
	"errors"
	"math"
	"testing"

	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParsePairReadsWhatPeopleWrite(t *testing.T) {
	rows := []struct {
		name, text    string
		bare          measure.System
		width, height float64
	}{
		{"unit at the end", "3 x 2 m", imperial, 3000, 2000},
		{"no spaces", "3x2", metric, 3000, 2000},
		{"no unit, in feet", "10x8", imperial, 3048, 2438.4},
		{"in words", "3 m by 2 m", imperial, 3000, 2000},
		{"words without units", "3 by 2", metric, 3000, 2000},
		{"words without spaces", "3mby2m", imperial, 3000, 2000},
		{"feet stuck to the numbers", "10ft x 8ft", metric, 3048, 2438.4},
		{"marks and a times sign", "10'6\" × 8'", metric, 3200.4, 2438.4},
		{"typographic primes", "10′ 6″ × 8′", metric, 3200.4, 2438.4},
		{"decimal commas", "3,2 x 2,4 m", imperial, 3200, 2400},
		{"centimetres once", "300 x 200 cm", imperial, 3000, 2000},
		{"unit at the beginning", "3 m x 2", imperial, 3000, 2000},
		{"the first unit of a compound", "10 x 8 ft 6", metric, 3048, 2590.8},
		{"the second number of a compound bare", "10 ft 6 x 8", metric, 3200.4, 2438.4},
		{"two systems", "3 m x 8 ft", metric, 3000, 2438.4},
		{"a star", "3*2m", imperial, 3000, 2000},
		{"capitals", "3 X 2 M", imperial, 3000, 2000},
		{"a fraction as one character", "½ x 2 m", metric, 500, 2000},
		{"fractions", "7 1/2 x 6 ft", metric, 2286, 1828.8},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			require.True(t, measure.IsPair(row.text))
			width, height, err := measure.ParsePairMM(row.text, row.bare)
			require.NoError(t, err)
			assert.InDelta(t, row.width, width, 1e-9)
			assert.InDelta(t, row.height, height, 1e-9)
		})
	}
}

func TestParsePairRefusesNonsense(t *testing.T) {
	rows := []struct {
		name, text, says string
		pair             bool
	}{
		{"empty", "", "nothing was typed", false},
		{"one length", "3 m", "the height is missing", false},
		{"a word with an x", "max", "the height is missing", false},
		{"no height yet", "3 x", "the height is missing", true},
		{"no height, with a unit", "3 x m", "no number in it", true},
		{"three lengths", "3 x 2 x 1 m", "more than two lengths", true},
		{"negative", "3 x -2 m", "less than nothing", true},
		{"unknown unit", "3 x 2 parsec", "unknown unit parsec", true},
		{"a comma with two meanings", "1,200 x 900 mm", "it could mean 1.200 or 1200", true},
		{"absurd", "3 x 90000 km", "far too large", true},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.pair, measure.IsPair(row.text))
			_, _, err := measure.ParsePairMM(row.text, metric)
			var failure *measure.Error
			require.True(t, errors.As(err, &failure))
			assert.Equal(t, row.text, failure.Text)
			assert.Contains(t, err.Error(), row.says)
			assert.Contains(t, err.Error(), "such as 3 x 2 m")
		})
	}
}

func TestFormatPair(t *testing.T) {
	rows := []struct {
		name          string
		width, height float64
		system        measure.System
		want          string
	}{
		{"metres", 3200, 2400, metric, "3.2 x 2.4 m"},
		{"whole feet", 2438.4, 2133.6, imperial, "8 x 7 ft"},
		{"feet and inches", 3200.4, 2438.4, imperial, "10 ft 6 in x 8 ft"},
		{"both with inches", 3200.4, 2590.8, imperial, "10 ft 6 in x 8 ft 6 in"},
		{"inches beside feet", 152.4, 2438.4, imperial, "6 in x 8 ft"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, measure.FormatPair(row.width, row.height, row.system))
		})
	}
}

// FuzzPairFormatThenParse checks that a formatted pair is read back to within half of the rounding step, whichever
// system is used for bare numbers.
func FuzzPairFormatThenParse(f *testing.F) {
	f.Add(3200.4, 2438.4)
	f.Add(0.0, 304.7999)
	f.Add(152.4, 999_999.0)
	f.Fuzz(func(t *testing.T, width, height float64) {
		for _, side := range []*float64{&width, &height} {
			if math.IsNaN(*side) || math.IsInf(*side, 0) {
				*side = 1
			}
			*side = math.Mod(math.Abs(*side), 1e6)
		}
		for _, system := range []measure.System{metric, imperial} {
			exact, err := measure.ParseLengthMM(measure.ExactLength(width, system), imperial)
			require.NoError(t, err)
			assert.InDelta(t, width, exact, 0.0005+1e-9)
			text := measure.FormatPair(width, height, system)
			for _, bare := range []measure.System{metric, imperial} {
				w, h, err := measure.ParsePairMM(text, bare)
				require.NoError(t, err, text)
				step := map[measure.System]float64{metric: 10, imperial: 12.7}[system]
				assert.InDelta(t, width, w, step/2+1e-6, text)
				assert.InDelta(t, height, h, step/2+1e-6, text)
			}
		}
	})
}

// FuzzParsePairNeverPanics checks that no text makes the parser panic, or return a value that is not finite, or accept
// what [measure.IsPair] does not know as a pair.
func FuzzParsePairNeverPanics(f *testing.F) {
	for _, seed := range []string{"", "x", "3x", "x3", "3xx2", "3 by", "0x10", "½ x ⅓ m", "\xff3x2", "-x-"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, h, err := measure.ParsePairMM(text, metric)
		if err == nil {
			assert.False(t, math.IsNaN(w+h) || math.IsInf(w+h, 0), text)
			assert.True(t, measure.IsPair(text), text)
			return
		}
		assert.NotContains(t, err.Error(), "\n")
	})
}
