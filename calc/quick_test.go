//go:build !js && !race

package calc_test

import (
	"testing"
	"time"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every calculator of the list answers its example in at most a millisecond on the
// native machine, working included. The quickest of many runs is taken: others show
// what else the machine was doing.
func TestEveryCalculatorIsQuick(t *testing.T) {
	for _, c := range calc.All() {
		raw := c.Example.Raw()
		quickest := time.Hour
		for range 200 {
			began := time.Now()
			_, err := c.Compute(raw, measure.Metric)
			quickest = min(quickest, time.Since(began))
			require.NoError(t, err)
		}
		t.Logf("%-10s %v", c.Name, quickest)
		assert.LessOrEqual(t, quickest, time.Millisecond, c.Name)
	}
}
