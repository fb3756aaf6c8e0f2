package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hostile holds what a text may use to control a terminal: a title, a cleared screen, colours, C1 controls, a bell,
// reversed writing, and a line break.
const hostile = "A\x1b]0;owned\x07\x1b[2J\x1b[31mB\u009b31m\u0085C\u202eD\u2066E\x7f\r\nForged line\tcell"

// steersNothing checks that an output holds only printable characters, line feeds and, in tables, nothing else.
func steersNothing(t *testing.T, out string) {
	t.Helper()
	for at, r := range out {
		if r != '\n' && r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) {
			t.Fatalf("a %U at %d: %q", r, at, out[max(0, at-40):min(len(out), at+40)])
		}
	}
	assert.NotContains(t, out, "\nForged line")
}

// hostileJob returns a sample job in which every free text is hostile.
func hostileJob(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(samples + "reading-room.json")
	require.NoError(t, err)
	var file map[string]any
	require.NoError(t, json.Unmarshal(data, &file))
	tried, kept := 0, 0
	var spoil func(value any, put func(any))
	spoil = func(value any, put func(any)) {
		switch v := value.(type) {
		case map[string]any:
			for key, inner := range v {
				spoil(inner, func(with any) { v[key] = with })
			}
		case []any:
			for i, inner := range v {
				spoil(inner, func(with any) { v[i] = with })
			}
		case string:
			tried++
			put(v + hostile)
			text, err := json.Marshal(file)
			require.NoError(t, err)
			if _, err := job.DecodeFile(text); err != nil { // not a free text
				put(v)
				return
			}
			kept++
		}
	}
	spoil(file, nil)
	require.Greater(t, kept, 10, "of %d texts", tried)
	text, err := json.Marshal(file)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "hostile.json")
	require.NoError(t, os.WriteFile(path, text, 0o600))
	return path
}

func TestCLIOutputHasNoControlCharacters(t *testing.T) {
	file := hostileJob(t)
	code, out, complaint := cli("plan", file)
	require.Zero(t, code, complaint)
	steersNothing(t, out)
	assert.True(t, strings.Contains(out, "CDE  Forged line cell"), "the rest of the text must be shown on one line")
	code, out, complaint = cli("plan", file, "--json")
	require.Zero(t, code, complaint)
	steersNothing(t, out)
	assert.True(t, json.Valid([]byte(out)))

	broken := filepath.Join(t.TempDir(), "broken.json")
	require.NoError(
		t,
		os.WriteFile(broken,
			bytes.Replace(must(os.ReadFile(samples+"reading-room.json")), []byte(`"garland"`), must(json.Marshal(hostile)), 1),
			0o600),
	)
	for name, args := range map[string][]string{"a kind that is none": {"plan", broken},
		"a file that is not there": {"plan", "no" + hostile},
		"an input":                 {"calc", "clusters", hostile + "=1"}, "a calculator": {"calc", hostile}} {
		code, out, complaint = cli(args...)
		assert.NotZero(t, code, name)
		steersNothing(t, out)
		steersNothing(t, complaint)
	}
}

func must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}

// TestCLIReplayOfAHostileJournal checks that replaying a hostile journal prints no control characters.
func TestCLIReplayOfAHostileJournal(t *testing.T) {
	op := job.Op{ID: "id" + hostile, Device: "d", Number: 1, Version: 1, Kind: job.Set, Entity: "brief",
		Field: "title", Value: []byte(`{`)}
	good := job.Rec{
		Op: job.Op{ID: "operation1", Device: "d", Number: 2, Version: 1, Kind: job.Set, Entity: "brief",
			Field: "title", Value: []byte(`"x"`)},
		Effective: 1,
	}
	op.Value = []byte(`7`)
	var lines []byte
	for _, rec := range []job.Rec{good, {Op: op, Effective: 1}} {
		line, err := json.Marshal(map[string]any{"log": "readingroom", "rec": rec})
		require.NoError(t, err)
		lines = append(append(lines, line...), '\n')
	}
	journal := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(journal, "ops-202701.ndjson"), lines, 0o600))
	code, out, complaint := cli("restore", "--data", filepath.Join(t.TempDir(), "data"), "--journal", journal)
	require.Zero(t, code, complaint)
	assert.Contains(t, out, "Not taken: id")
	steersNothing(t, out)
}

func TestSafeWriterKeepsCharactersWhole(t *testing.T) {
	var out bytes.Buffer
	w := safely(&out)
	for _, b := range []byte("Grüße 🎈\tund\nmehr\x1b[0m\u200eüb\xffer") { // a table may split characters
		_, err := w.Write([]byte{b})
		require.NoError(t, err)
	}
	assert.Equal(t, "Grüße 🎈\tund\nmehr[0müb\uFFFDer", out.String())
	assert.Equal(t, 1, strings.Count(out.String(), "🎈"))
}
