package nest_test

import (
	"fmt"
	"math"
	"testing"

	"garlandry/calc/nest"
)

// standardPush is about the push at which quads stand two to the foot.
const standardPush = 0.2

func alike(balloons int, diameterMM float64) []float64 {
	diameters := make([]float64, balloons)
	for i := range diameters {
		diameters[i] = diameterMM
	}
	return diameters
}

// BenchmarkTenClustersOfSix is held to 30 ms native and 150 ms in wasm.
func BenchmarkTenClustersOfSix(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		benchmarkPush(b, 10)
	}
}

// BenchmarkSixHundredBalloons is held to 1 s native.
func BenchmarkSixHundredBalloons(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		benchmarkPush(b, 100)
	}
}

// BenchmarkGrowth prints the time per balloon and per n log n; neither may climb
// as strings grow.
func BenchmarkGrowth(b *testing.B) {
	for _, clusters := range []int{10, 20, 40, 80, 160, 320, 640} {
		n := float64(6 * clusters)
		b.Run(fmt.Sprintf("%d-balloons", 6*clusters), func(b *testing.B) {
			steps := 0
			for b.Loop() {
				steps += benchmarkPush(b, clusters)
			}
			runs := float64(b.N)
			each := float64(b.Elapsed().Nanoseconds()) / runs
			b.ReportMetric(each/n/1000, "us/balloon")
			b.ReportMetric(each/(n*math.Log2(n))/1000, "us/(n·log2n)")
			b.ReportMetric(float64(steps)/runs, "steps")
		})
	}
}

func benchmarkPush(b *testing.B, clusters int) int {
	rest, err := nest.Pushed(alike(6, 254), clusters, standardPush, 1)
	if err != nil || !rest.Settled {
		b.Fatalf("did not settle: %v %v", rest.Settled, err)
	}
	return rest.Steps
}
