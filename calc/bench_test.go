package calc_test

import (
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/require"
)

// Every calculator answers in at most a millisecond, drawing and working
// included; closer drawings relax balloons and take longer.
func BenchmarkCompute(b *testing.B) {
	for _, c := range calc.All() {
		raw := c.Example.Raw()
		result, err := c.Compute(raw, measure.Metric)
		require.NoError(b, err)
		b.Run(c.Name, func(b *testing.B) {
			for b.Loop() {
				_, _ = c.Compute(raw, measure.Metric)
			}
		})
		if result.Closer != nil {
			b.Run(c.Name+"/closer", func(b *testing.B) {
				for b.Loop() {
					result.Closer()
				}
			})
		}
	}
}
