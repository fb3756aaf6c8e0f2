package job_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawRecs draws a log as several phones might make it. It has few entities, so that operations conflict. Undos and
// counts name operations that exist, do not exist, or come later.
func drawRecs(t *rapid.T) []job.Rec {
	count := rapid.IntRange(0, 60).Draw(t, "operations")
	recs := make([]job.Rec, count)
	id := func(n int) string { return fmt.Sprintf("operation%03d", n) }
	for n := range recs {
		r := job.Rec{Effective: rapid.Int64Range(1, 40).Draw(t, "stamp"),
			Author: job.Author{Role: job.Helper, Name: rapid.SampledFrom([]string{"Ines", "Tomasz", "Bea"}).Draw(t, "author")}}
		r.ID, r.Device, r.Number, r.Version = id(n), rapid.SampledFrom([]string{"a", "b", "c"}).
			Draw(t, "device"),
			uint64(n+1), 1
		r.Entity = rapid.SampledFrom([]string{"card/make/door", "card/site/hang", "piece/door"}).Draw(t, "entity")
		switch r.Kind = rapid.SampledFrom([]job.Kind{job.Set, job.Set, job.Add, job.Add, job.Undo, job.Stocktake,
			"wave"}).Draw(t, "kind"); r.Kind {
		case job.Set:
			r.Field = rapid.SampledFrom([]string{"done", "taken", "name"}).Draw(t, "field")
			r.Value = json.RawMessage(fmt.Sprint(rapid.IntRange(0, 3).Draw(t, "value")))
		case job.Add:
			r.Delta = rapid.Int64Range(-5, 12).Draw(t, "delta")
			r.Value = json.RawMessage(rapid.SampledFrom([]string{"", `"a"`, `"b"`, `"gone"`, `7`}).Draw(t, "of"))
		case job.Undo:
			r.Field = id(rapid.IntRange(0, count+2).Draw(t, "undone"))
		case job.Stocktake:
			r.Value = mustJSON(job.Counted{N: rapid.Int64Range(0, 50).Draw(t, "counted"),
				Covers: []string{id(rapid.IntRange(0, count).Draw(t, "covered"))}})
		default:
			r.Value = json.RawMessage(`{"of":"a later version"}`)
		}
		recs[n] = r
	}
	return recs
}

func mustJSON(value any) json.RawMessage {
	raw, err := json.Marshal(value)
	if err != nil {
		panic(err)
	}
	return raw
}

// text returns a state as JSON, to compare states.
func text(t require.TestingT, s *job.State) string {
	raw, err := json.Marshal(s)
	require.NoError(t, err)
	return string(raw)
}

// reload encodes and decodes a state, as a stored snapshot is.
func reload(t require.TestingT, s *job.State) *job.State {
	var again job.State
	require.NoError(t, json.Unmarshal([]byte(text(t, s)), &again))
	return &again
}

func property(t *testing.T, law func(t *rapid.T, recs []job.Rec)) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) { law(t, drawRecs(t)) })
}
