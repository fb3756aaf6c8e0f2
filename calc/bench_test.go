package calc_test

import (
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/require"
)

// BenchmarkCompute measures every calculator, working included. The bound is a millisecond. Pictures of clusters lay
// out their balloons and take longer.
func BenchmarkCompute(b *testing.B) {
	for _, c := range calc.All() {
		raw := c.Example.Raw()
		result, err := c.Compute(nil, raw, measure.Metric)
		require.NoError(b, err)
		b.Run(c.Name, func(b *testing.B) {
			for b.Loop() {
				_, _ = c.Compute(nil, raw, measure.Metric)
			}
		})
		if result.Picture() != result.Drawing {
			b.Run(c.Name+"/picture", func(b *testing.B) {
				for b.Loop() {
					result.Picture()
				}
			})
		}
	}
}
