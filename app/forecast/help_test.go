package forecast_test

import (
	"flag"

	"garlandry/app/internal/sample"
	"garlandry/app/job"
	"garlandry/app/plan/transport"
)

var update = flag.Bool("update", false, "rewrite the goldens")

var readJob, goldenJobs = sample.Read, sample.Golden

var made, piece, shares = sample.Job, sample.Piece, sample.Shares

// garland returns a job with a coral door garland of a length, and further changes.
func garland(lengthMM int, more ...job.Change) job.Job {
	return made(append(piece("door", "garland", map[string]any{"length_mm": lengthMM, "recipe": "2x11@9.5", "accents": 0,
		"colours": shares("coral", 1.0)}), more...)...)
}

// bringAll has everything that is made at home brought, however many loads it takes.
func bringAll(j job.Job) job.Job { return job.Try(j, broughtAll(j)) }

// broughtAll returns the changes of [bringAll].
func broughtAll(j job.Job) (changes []job.Change) {
	for _, p := range j.Pieces {
		changes = append(changes, job.Put("choice/"+transport.BringKey(p.ID), "pick", transport.PickBrought))
	}
	return changes
}
