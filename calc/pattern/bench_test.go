package pattern_test

import (
	"testing"

	"garlandry/calc/pattern"
)

func BenchmarkLay(b *testing.B) {
	for _, c := range []struct {
		name     string
		clusters int
		sizes    []pattern.Size
	}{
		{"26 clusters, 4 colours, 2 sizes", 26, []pattern.Size{{4, []int{47, 26, 21, 10}}, {2, []int{23, 14, 10, 5}}}},
		{"100 clusters, 5 colours", 100, row(4, 157, 103, 71, 47, 22)},
		{"100 clusters, 5 colours, 2 sizes", 100,
			[]pattern.Size{{4, []int{157, 103, 71, 47, 22}}, {2, []int{78, 52, 36, 23, 11}}}},
		{"400 clusters, 5 colours", 400, row(4, 629, 411, 283, 189, 88)},
		{"400 clusters, 8 colours, 4 sizes", 400, []pattern.Size{
			{64, []int{6401, 4799, 3203, 3199, 2803, 2399, 1601, 1195}}, {8, []int{801, 599, 403, 399, 351, 299, 201, 147}},
			{4, []int{401, 299, 203, 199, 151, 149, 101, 97}}, {2, []int{201, 149, 103, 99, 81, 69, 51, 47}}}},
		{"20,000 clusters, 5 colours", 20_000, row(8, 62_901, 41_103, 28_307, 18_889, 8_800)},
	} {
		for _, rule := range rules {
			b.Run(c.name+"/"+string(rule), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := pattern.Lay(pattern.Base{Clusters: c.clusters, Rule: rule, Sizes: c.sizes}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
