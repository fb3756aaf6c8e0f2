package plan_test

import (
	"encoding/json"
	"testing"

	"garlandry/app/internal/sample"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"

	"github.com/stretchr/testify/require"
)

var readJob, goldenJobs = sample.Read, sample.Golden

var made, piece, shares = sample.Job, sample.Piece, sample.Shares

// garland returns a job with a coral door garland of a length, and further changes.
func garland(lengthMM int, more ...job.Change) job.Job {
	return made(append(piece("door", "garland", map[string]any{"length_mm": lengthMM, "recipe": "2x11@9.5", "accents": 0,
		"colours": shares("coral", 1.0)}), more...)...)
}

func only(t testing.TB, p plan.Plan) count.PieceCount {
	t.Helper()
	require.Len(t, p.Pieces, 1)
	return p.Pieces[0]
}

func packLines(p plan.Plan) map[string]packing.Line {
	lines := map[string]packing.Line{}
	for _, b := range p.Pack {
		for _, l := range b.Lines {
			lines[l.Key] = l
		}
	}
	return lines
}

func cards(p plan.Plan) map[string]task.Card {
	byKey := map[string]task.Card{}
	for _, c := range p.Cards {
		byKey[c.Key] = c
	}
	return byKey
}

func asJSON(t testing.TB, v any) string {
	t.Helper()
	data, err := json.Marshal(v)
	require.NoError(t, err, "a plan holds no NaN and no infinity")
	return string(data)
}

// bringAll has everything that is made at home brought, however many loads it takes.
func bringAll(j job.Job) job.Job {
	var changes []job.Change
	for _, p := range j.Pieces {
		changes = append(changes, job.Put("choice/"+transport.BringKey(p.ID), "pick", transport.PickBrought))
	}
	return job.Try(j, changes)
}
