package plan_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// twelve returns a job with twelve pieces: the sample's ten and two garlands.
func twelve(b *testing.B) job.Job {
	j := readJob(b, "reading-room")
	for i := range 12 - len(j.Pieces) {
		p := j.Pieces[0]
		p.ID, p.Name = fmt.Sprintf("more%d", i), fmt.Sprintf("Garland %d", i)
		p.LengthMM, p.Line = 4000+1000*float64(i), "typed"
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// The budget is 5 ms natively.
func BenchmarkMakeTwelvePieces(b *testing.B) {
	j := twelve(b)
	b.ReportAllocs()
	for b.Loop() {
		plan.Make(j)
	}
}

// The budget is well below 1 ms, as this runs after every tick.
func BenchmarkProgressTwelvePieces(b *testing.B) {
	j := twelve(b)
	design := plan.Design(j)
	b.ReportAllocs()
	for b.Loop() {
		plan.Progress(j, design)
	}
}
