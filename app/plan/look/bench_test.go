package look_test

import (
	"testing"

	"garlandry/app/plan"
)

// BenchmarkLooks computes the looks of the demo's ten pieces, about 800 balloons.
func BenchmarkLooks(b *testing.B) {
	j := sampleJobs(b)["reading-room"]
	for b.Loop() {
		p := plan.Design(j)
		if p.Room(0) == nil {
			b.Fatal("no look")
		}
	}
}
