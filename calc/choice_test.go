package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/outline"
	"garlandry/calc/rig"
)

// What can be chosen is what the package that does the work knows, all of it and
// nothing else, in its order: a calculator's table is of plain constants, so the
// names stand there once more.
func TestChoicesAreThoseThatAreKnown(t *testing.T) {
	var grounds, materials, shapes []string
	for _, g := range rig.Grounds() {
		grounds = append(grounds, g.Name)
	}
	for _, m := range rig.Materials() {
		materials = append(materials, m.Name)
	}
	for _, k := range outline.Kinds() {
		shapes = append(shapes, string(k))
	}
	known := map[string][]string{"tip ground": grounds, "dip material": materials, "outline shape": shapes}
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			if in.Kind != calc.KindChoice {
				continue
			}
			name := c.Name + " " + in.Key
			require.Contains(t, known, name, "a choice that nothing is held against")
			assert.Equal(t, known[name], in.Choices, name)
			delete(known, name)
		}
	}
	assert.Empty(t, known, "choices that are no longer asked for")
}
