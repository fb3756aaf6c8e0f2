// Package sample makes jobs for the tests of app/plan and app/forecast.
package sample

import (
	"os"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/require"
)

// Dir is the directory of the sample jobs, as seen from app/plan and app/forecast.
const Dir = "../../testdata/jobs"

// Read reads a sample job.
func Read(t testing.TB, name string) job.Job {
	t.Helper()
	data, err := os.ReadFile(Dir + "/" + name + ".json")
	require.NoError(t, err)
	changes, err := job.DecodeFile(data)
	require.NoError(t, err)
	return job.Preview(changes)
}

// Golden lists the sample jobs with a golden plan and a golden forecast.
func Golden() []string {
	return []string{"reading-room", "allotment-supper", "orchard-wedding", "attic-birthday", "ferry-lobby",
		"hilltop-wedding", "school-fete", "mill-foyer"}
}

// Job returns a job with two colours and the changes.
func Job(changes ...job.Change) job.Job {
	base := []job.Change{
		job.Put("brief", "title", "Reading room reopening"),
		job.Put("colour/coral", "name", "Coral"), job.Put("colour/coral", "sizes", []int{5, 11, 18}),
		job.Put("colour/coral", "order", 1),
		job.Put("colour/ink", "name", "Ink blue"), job.Put("colour/ink", "sizes", []int{5, 11}),
		job.Put("colour/ink", "order", 2),
	}
	return job.Preview(append(base, changes...))
}

// Piece returns the changes that make a piece with the fields.
func Piece(id, kind string, fields map[string]any) []job.Change {
	changes := []job.Change{job.Put("piece/"+id, "name", id), job.Put("piece/"+id, "kind", kind)}
	for name, value := range fields {
		changes = append(changes, job.Put("piece/"+id, name, value))
	}
	return changes
}

// Shares returns the shares of colours, given as a colour and its weight in turn.
func Shares(parts ...any) []job.Share {
	var list []job.Share
	for i := 0; i < len(parts); i += 2 {
		list = append(list, job.Share{Colour: parts[i].(string), Weight: parts[i+1].(float64)})
	}
	return list
}
