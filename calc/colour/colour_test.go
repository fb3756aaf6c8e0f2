package colour_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/colour"
)

func ExampleDifference() {
	coral, _ := colour.Parse("#e5604d")
	blush, _ := colour.Parse("#f0c9c2")
	fmt.Printf("%.0f\n", colour.Difference(coral.Lab(), blush.Lab()))
	// Output: 27
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		want colour.RGB
		is   bool
	}{
		{"#e5604d", colour.RGB{R: 0xe5, G: 0x60, B: 0x4d}, true},
		{"#FFffFF", colour.RGB{R: 255, G: 255, B: 255}, true},
		{"e5604d0", colour.RGB{}, false},
		{"#e5604", colour.RGB{}, false},
		{"#+12345", colour.RGB{}, false},
		{"#-12345", colour.RGB{}, false},
		{"#1_2345", colour.RGB{}, false},
		{"#gggggg", colour.RGB{}, false},
		{"", colour.RGB{}, false},
	} {
		got, is := colour.Parse(c.text)
		assert.Equal(t, c.is, is, c.text)
		assert.Equal(t, c.want, got, c.text)
	}
	rapid.Check(t, func(t *rapid.T) {
		c := drawColour(t, "colour")
		again, is := colour.Parse(c.String())
		assert.True(t, is)
		assert.Equal(t, c, again)
	})
}

func drawColour(t *rapid.T, name string) colour.RGB {
	channel := rapid.Uint8()
	return colour.RGB{R: channel.Draw(t, name+" red"), G: channel.Draw(t, name+" green"), B: channel.Draw(t, name+" blue")}
}

// TestLab checks primaries and a grey against values that public test suites of colour libraries agree on, to 0.02.
func TestLab(t *testing.T) {
	for _, c := range []struct {
		text string
		want colour.Lab
	}{
		{"#ff0000", colour.Lab{L: 53.24, A: 80.09, B: 67.20}},
		{"#00ff00", colour.Lab{L: 87.73, A: -86.18, B: 83.18}},
		{"#0000ff", colour.Lab{L: 32.30, A: 79.19, B: -107.86}},
		{"#808080", colour.Lab{L: 53.59}},
		{"#ffffff", colour.Lab{L: 100}}, // by definition, as is black
		{"#000000", colour.Lab{}},
	} {
		rgb, is := colour.Parse(c.text)
		require.True(t, is)
		got := rgb.Lab()
		assert.InDelta(t, c.want.L, got.L, 0.02, c.text)
		assert.InDelta(t, c.want.A, got.A, 0.02, c.text)
		assert.InDelta(t, c.want.B, got.B, 0.02, c.text)
	}
	for grey := range 256 {
		lab := colour.RGB{R: uint8(grey), G: uint8(grey), B: uint8(grey)}.Lab()
		assert.InDelta(t, 0, lab.A, 1e-9)
		assert.InDelta(t, 0, lab.B, 1e-9)
	}
}

// TestDifference checks every published pair, both ways round: see testdata/colour/SOURCE.md.
func TestDifference(t *testing.T) {
	file, err := os.Open("../../testdata/colour/ciede2000.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 35)
	for _, row := range rows[1:] {
		var n [8]float64
		for i, text := range row {
			n[i], err = strconv.ParseFloat(text, 64)
			require.NoError(t, err)
		}
		a, b := colour.Lab{L: n[1], A: n[2], B: n[3]}, colour.Lab{L: n[4], A: n[5], B: n[6]}
		assert.InDelta(t, n[7], colour.Difference(a, b), 1e-9, "pair %s", row[0])
		assert.InDelta(t, n[7], colour.Difference(b, a), 1e-9, "pair %s turned round", row[0])
	}
}

func TestDifferenceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawColour(t, "a").Lab(), drawColour(t, "b").Lab()
		assert.Zero(t, colour.Difference(a, a))
		assert.InDelta(t, colour.Difference(a, b), colour.Difference(b, a), 1e-4)
		if a != b {
			assert.Positive(t, colour.Difference(a, b))
		}
	})
}
