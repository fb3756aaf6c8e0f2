package view_test

import (
	"io"
	"strconv"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/require"
)

// archOfSixHundred is a job with one arch of about 600 balloons of a recipe, accents included.
func archOfSixHundred(recipe string, coral float64) job.Job {
	changes := []job.Change{
		job.Put("piece/arch", "name", "Arch"), job.Put("piece/arch", "kind", "garland"),
		job.Put("piece/arch", "line", "arch"),
		job.Put("piece/arch", "width_mm", 7600), job.Put("piece/arch", "height_mm", 6600),
		job.Put("piece/arch", "recipe", recipe),
		job.Put("piece/arch", "colours", []job.Share{{Colour: "coral", Weight: coral}, {Colour: "ink", Weight: 2},
			{Colour: "sand", Weight: 2}, {Colour: "blush", Weight: 1}}),
	}
	for id, value := range map[string]string{"coral": "#e8604c", "ink": "#1f3a68", "sand": "#d9b88a", "blush": "#f2c6bf"} {
		changes = append(changes, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "value", value))
	}
	return job.Preview(changes)
}

// BenchmarkPictureOfSixHundred counts, places and draws an arch of about 600 balloons whose recipe has not been drawn
// before.
func BenchmarkPictureOfSixHundred(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		drawArch(b, archOfSixHundred("3x11@"+strconv.FormatFloat(10+float64(i%500)/1e4, 'f', -1, 64), 3))
	}
}

// BenchmarkChangedPictureOfSixHundred does so after a change of the colours.
func BenchmarkChangedPictureOfSixHundred(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		drawArch(b, archOfSixHundred("3x11@10", 3+float64(i%500)/1e3))
	}
}

func drawArch(b *testing.B, j job.Job) {
	p := plan.Design(j)
	l := p.Look(&p.Pieces[0], 0)
	require.InDelta(b, 600, len(l.Balloons), 60)
	require.NoError(b, view.Front{Look: l, Person: true}.Draw().Render(io.Discard))
}
