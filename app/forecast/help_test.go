package forecast_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

var update = flag.Bool("update", false, "rewrite the goldens")

const jobsDir = "../../testdata/jobs"

// goldenJobs are the sample jobs with a golden forecast.
func goldenJobs() []string { return []string{"reading-room", "allotment-supper", "orchard-wedding"} }

// readJob reads a sample job.
func readJob(t testing.TB, name string) job.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(jobsDir, name+".json"))
	require.NoError(t, err)
	changes, err := job.DecodeFile(data)
	require.NoError(t, err)
	return job.Preview(changes)
}

// made returns a job of the changes on top of a small palette.
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

// piece returns the changes that make a piece with fields.
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

// garland returns a job with a coral door garland of a length, and further changes.
func garland(lengthMM int, done ...job.Change) job.Job {
	return made(
		append(
			piece("door", "garland",
				map[string]any{"length_mm": lengthMM, "recipe": "2x11@9.5", "accents": 0, "colours": shares("coral", 1.0)}),
			done...)...)
}
