package plan_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

const jobsDir = "../../testdata/jobs"

// readJob reads a sample job.
func readJob(t testing.TB, name string) job.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(jobsDir, name+".json"))
	require.NoError(t, err)
	changes, err := job.DecodeFile(data)
	require.NoError(t, err)
	return job.Preview(changes)
}

// made is a job of changes to entities, on top of a small palette and crew.
func made(changes ...job.Change) job.Job {
	base := []job.Change{
		job.Put("brief", "title", "Reading room reopening"),
		job.Put(
			"colour/coral",
			"name",
			"Coral",
		), job.Put("colour/coral", "sizes", []int{5, 11, 18}), job.Put("colour/coral", "order", 1),
		job.Put(
			"colour/ink",
			"name",
			"Ink blue",
		), job.Put("colour/ink", "sizes", []int{5, 11}), job.Put("colour/ink", "order", 2),
	}
	return job.Preview(append(base, changes...))
}

// piece is the changes that make a piece with fields.
func piece(id, kind string, fields map[string]any) []job.Change {
	changes := []job.Change{job.Put("piece/"+id, "name", id), job.Put("piece/"+id, "kind", kind)}
	for name, value := range fields {
		changes = append(changes, job.Put("piece/"+id, name, value))
	}
	return changes
}

func shares(parts ...any) []job.Share {
	var list []job.Share
	for i := 0; i < len(parts); i += 2 {
		list = append(list, job.Share{Colour: parts[i].(string), Weight: parts[i+1].(float64)})
	}
	return list
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
