package picture_test

import (
	"testing"

	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

// BenchmarkSixHundred has bounds of 15 ms native and 250 ms on a slow phone: an arch of 88 clusters of six and 18
// accents of four, 600 balloons.
func BenchmarkSixHundred(b *testing.B) {
	base, small := picture.Equal(recipe(b, "3x11@10"), 88), picture.Equal(recipe(b, "2x5@4.5"), 18)
	shape := shapes["arch"]
	shape.WidthMM, shape.HeightMM = 7000, 8000
	b.ReportAllocs()
	for b.Loop() {
		balloons, line, err := picture.Strung(shape, base, cluster.StandardPush())
		if err != nil {
			b.Fatal(err)
		}
		accents := picture.On(balloons, line.Points, 0, 1, small)
		if len(balloons)+len(accents) != 600 {
			b.Fatal("600 balloons are wanted")
		}
	}
}

// BenchmarkStrung is without accents; half the clusters of the second are substitutes.
func BenchmarkStrung(b *testing.B) {
	rows := map[string]picture.Clusters{"equal": picture.Equal(recipe(b, "3x11@10"), 88), "mixed": mixed(b, 88)}
	for name, c := range rows {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				strung(b, shapes["arch"], c)
			}
		})
	}
}

func BenchmarkHeap(b *testing.B) {
	for name, n := range map[string]int{"30": 30, "300": 300, "2000": 2000} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				picture.Heap([]picture.Size{{254, n / 2}, {127, n - n/2}})
			}
		})
	}
}
