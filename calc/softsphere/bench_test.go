package softsphere_test

import (
	"fmt"
	"math"
	"testing"

	"garlandry/calc/softsphere"
)

// standardPush is about the push at which quads have two per foot.
const standardPush = 0.2

func alike(balloons int, diameterMM float64) []float64 {
	diameters := make([]float64, balloons)
	for i := range diameters {
		diameters[i] = diameterMM
	}
	return diameters
}

// BenchmarkTenClustersOfSix has bounds of 30 ms native and 150 ms in wasm.
func BenchmarkTenClustersOfSix(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		push(b, 10, 1)
	}
}

// BenchmarkSixHundredBalloons has a bound of 1 s native.
func BenchmarkSixHundredBalloons(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		push(b, 100, 1)
	}
}

// growing lists lengths in clusters. The long ones are no whole number of the pieces they are made from, so that
// something is left to settle.
var growing = []int{10, 20, 40, 91, 177, 333, 655}

// BenchmarkGrowth prints the time per balloon and per n log n; the latter must not rise with the length. Every string
// is pushed from the same five starts, because a single start varies too much. It measures the program's own processor
// time, because on a busy machine wall-clock time penalizes the longest run most.
func BenchmarkGrowth(b *testing.B) {
	for _, clusters := range growing {
		n := float64(6 * clusters)
		b.Run(fmt.Sprintf("%d-balloons", 6*clusters), func(b *testing.B) {
			const starts = 5
			steps, before := 0, workTime()
			for b.Loop() {
				for seed := range uint64(starts) {
					steps += push(b, clusters, seed+1)
				}
			}
			runs := float64(b.N * starts)
			each := float64((workTime() - before).Nanoseconds()) / runs
			b.ReportMetric(each/n/1000, "us/balloon")
			b.ReportMetric(each/(n*math.Log2(n))/1000, "us/(n·log2n)")
			b.ReportMetric(float64(steps)/runs, "steps")
		})
	}
}

func push(b *testing.B, clusters int, seed uint64) int {
	rest, err := softsphere.Pushed(alike(6, 254), clusters, standardPush, seed)
	if err != nil || !rest.Settled {
		b.Fatalf("did not settle: %v %v", rest.Settled, err)
	}
	return rest.Steps
}
