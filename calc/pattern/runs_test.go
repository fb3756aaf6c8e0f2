package pattern_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/pattern"
)

func TestName(t *testing.T) {
	for kind, want := range map[int]string{0: "A", 1: "B", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		assert.Equal(t, want, pattern.Name(kind))
	}
}

func TestRuns(t *testing.T) {
	assert.Equal(t, []pattern.Run{{0, 2}, {1, 1}, {0, 1}, {2, 1}}, pattern.Runs([]int{0, 0, 1, 0, 2}))
	assert.Empty(t, pattern.Runs(nil))
}

func TestRepeats(t *testing.T) {
	for _, c := range []struct {
		name           string
		sequence, unit []int
		times          int
		rest           []int
	}{
		{"whole", []int{0, 1, 0, 1, 0, 1}, []int{0, 1}, 3, []int{}},
		{"with a rest", []int{0, 1, 2, 0, 1, 2, 0}, []int{0, 1, 2}, 2, []int{0}},
		{"one kind", []int{0, 0, 0}, []int{0}, 3, []int{}},
		{"inside a unit too", []int{0, 0, 1, 0, 0, 1}, []int{0, 0, 1}, 2, []int{}},
		{"not twice", []int{0, 1, 2, 0, 1}, []int{0, 1, 2, 0, 1}, 1, nil},
		{"nothing", nil, nil, 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			unit, times, rest := pattern.Repeats(c.sequence)
			assert.Equal(t, c.unit, unit)
			assert.Equal(t, c.times, times)
			assert.Equal(t, c.rest, rest)
		})
	}
}

// TestRepeatsLaw rebuilds the sequence, and looks for a shorter unit by trying all of them.
func TestRepeatsLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.SliceOfN(rapid.IntRange(0, 2), 1, 6).Draw(t, "part")
		sequence := slices.Repeat(part, rapid.IntRange(1, 5).Draw(t, "times"))
		sequence = sequence[:rapid.IntRange(1, len(sequence)).Draw(t, "length")]
		unit, times, rest := pattern.Repeats(sequence)
		assert.Equal(t, sequence, append(slices.Repeat(unit, times), rest...))
		for period := 1; period < len(unit) && 2*period <= len(sequence); period++ {
			assert.NotEqual(t, sequence[period:], sequence[:len(sequence)-period], "period %d is shorter", period)
		}
		var again []int
		for _, run := range pattern.Runs(sequence) {
			again = append(again, slices.Repeat([]int{run.Kind}, run.Count)...)
		}
		assert.Equal(t, sequence, again)
	})
}
