package forecast_test

import (
	"flag"

	"garlandry/app/internal/sample"
	"garlandry/app/job"
)

var update = flag.Bool("update", false, "rewrite the goldens")

var readJob, goldenJobs = sample.Read, sample.Golden

var made, piece, shares = sample.Job, sample.Piece, sample.Shares

// garland returns a job with a coral door garland of a length, and further changes.
func garland(lengthMM int, more ...job.Change) job.Job {
	return made(append(piece("door", "garland", map[string]any{"length_mm": lengthMM, "recipe": "2x11@9.5", "accents": 0,
		"colours": shares("coral", 1.0)}), more...)...)
}
