package json_test

import (
	real "encoding/json"
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/shell/standin/json"
)

// tenThousand gives the records of a long job.
func tenThousand() []job.Rec {
	recs := make([]job.Rec, 10000)
	for i := range recs {
		recs[i] = job.Rec{Op: job.Op{ID: fmt.Sprintf("abcdefghijklmnopqrst%06d", i), Device: "bea-phone", Number: uint64(i), Version: 1, Kind: job.Set,
			Entity: fmt.Sprintf("card/inflate/%d", i/4), Field: "done", Value: real.RawMessage(`true`), Wall: 1790000000000 + int64(i), Parents: []string{"abcdefghijklmnopqrst000000"}},
			Effective: 1790000000000 + int64(i), Seq: uint64(i), Author: job.Author{Role: "helper", Name: "Tomasz"}, MAC: "00112233445566778899aabbccddeeff"}
	}
	return recs
}

func BenchmarkMarshal(b *testing.B) {
	recs := tenThousand()
	state := job.Fold(recs...)
	for _, c := range []struct {
		name  string
		value any
	}{{"records", recs}, {"state", state}} {
		b.Run(c.name+"/real", func(b *testing.B) { write(b, real.Marshal, c.value) })
		b.Run(c.name+"/ours", func(b *testing.B) { write(b, json.Marshal, c.value) })
	}
}

func write(b *testing.B, marshal func(any) ([]byte, error), value any) {
	for b.Loop() {
		if _, err := marshal(value); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkUnmarshal(b *testing.B) {
	recs := tenThousand()
	for _, c := range []struct {
		name  string
		value any
		place func() any
	}{
		{"records", recs, func() any { return new([]job.Rec) }},
		{"state", job.Fold(recs...), func() any { return new(job.State) }},
		{"fields", map[string]any{"title": "Reading room", "prep_c": 20.5, "children": "yes", "notes": "a \"long\" note"}, func() any { return new(map[string]real.RawMessage) }},
		{"brief", job.Brief{Title: "Reading room", PrepC: 20.5, Notes: "a \"long\" note"}, func() any { return new(job.Brief) }},
	} {
		data, err := real.Marshal(c.value)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(c.name+"/real", func(b *testing.B) { read(b, real.Unmarshal, data, c.place) })
		b.Run(c.name+"/ours", func(b *testing.B) { read(b, json.Unmarshal, data, c.place) })
	}
}

func read(b *testing.B, unmarshal func([]byte, any) error, data []byte, place func() any) {
	for b.Loop() {
		if err := unmarshal(data, place()); err != nil {
			b.Fatal(err)
		}
	}
}
