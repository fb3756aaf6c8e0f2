package job_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

// noteWrite is one write of a note. Time 0 means that it waits on the phone.
type noteWrite struct {
	id      string
	device  string
	at      int64
	text    string
	parents []string
}

var noteRows = []struct {
	name   string
	writes []noteWrite
	unseen []string
}{
	{"none", nil, nil},
	{"one", []noteWrite{{"a", "x", 1, "A", nil}}, nil},
	{"one after the other", []noteWrite{{"a", "x", 1, "A", nil}, {"b", "y", 2, "B", []string{"a"}}}, nil},
	{"two first ones", []noteWrite{{"a", "x", 1, "A", nil}, {"b", "y", 2, "B", nil}}, []string{"A"}},
	{"two first ones that say the same", []noteWrite{{"a", "x", 1, "A", nil}, {"b", "y", 2, "A", nil}}, nil},
	{"a first one and an empty one", []noteWrite{{"a", "x", 1, "", nil}, {"b", "y", 2, "B", nil}}, nil},
	{"two over the same",
		[]noteWrite{{"o", "x", 1, "O", nil}, {"a", "x", 2, "A", []string{"o"}}, {"b", "y", 3, "B", []string{"o"}}},
		[]string{"A"}},
	{
		"two over the same, then one who saw both",
		[]noteWrite{{"o", "x", 1, "O", nil}, {"a", "x", 2, "A", []string{"o"}}, {"b", "y", 3, "B", []string{"o"}},
			{"c", "x", 4, "C", []string{"b"}}},
		nil,
	},
	{
		"three over the same",
		[]noteWrite{{"o", "x", 1, "O", nil}, {"a", "x", 2, "A", []string{"o"}}, {"b", "y", 3, "B", []string{"o"}},
			{"c", "z", 4, "C", []string{"o"}}},
		[]string{"B", "A"},
	},
	{
		"own unsent drafts over one that arrived",
		[]noteWrite{{"o", "x", 1, "O", nil}, {"l", "y", 2, "L", []string{"o"}}, {"p", "x", 0, "P", []string{"o"}},
			{"q", "x", 0, "Q", []string{"p", "o"}}, {"r", "x", 0, "R", []string{"q", "o"}}},
		[]string{"L"},
	},
	{"own unsent drafts",
		[]noteWrite{{"o", "x", 1, "O", nil}, {"p", "x", 0, "P", []string{"o"}}, {"q", "x", 0, "Q", []string{"p", "o"}}}, nil},
}

// Unseen returns the versions of a note that the author of the current one had not seen.
func TestOtherVersionsOfANote(t *testing.T) {
	for _, row := range noteRows {
		t.Run(row.name, func(t *testing.T) {
			var recs []job.Rec
			for i, w := range row.writes {
				op := job.Op{ID: w.id, Device: w.device, Number: uint64(i + 1), Kind: job.Set, Entity: "card/load",
					Field: "note", Value: job.Put("", "", w.text).Value, Parents: w.parents}
				rec := job.Rec{Op: op, Effective: w.at}
				if w.at == 0 {
					rec = job.PendingRec(op, job.Author{})
				}
				recs = append(recs, rec)
			}
			state := job.Fold(recs...)
			stored, err := json.Marshal(state)
			require.NoError(t, err)
			var again job.State
			require.NoError(t, json.Unmarshal(stored, &again))
			for name, s := range map[string]*job.State{"folded": state, "read from a snapshot": &again,
				"cloned": state.Clone()} {
				var got []string
				for _, x := range s.Register("card/load", "note").Unseen() {
					var text string
					require.NoError(t, json.Unmarshal(x.Value, &text))
					got = append(got, text)
				}
				assert.Equal(t, row.unseen, got, name)
			}
		})
	}
}

// A snapshot of an early version does not say what was seen, so Unseen returns nothing from it.
func TestSnapshotsOfAnEarlyVersionStayReadable(t *testing.T) {
	early := `{"reg":{"card/load":{"note":{"r":[{"t":2,"d":"y","n":1,"i":"b","v":"B","by":{"r":"owner"}},{"t":1,` +
		`"d":"x","n":1,"i":"a","v":"A","by":{"r":"owner"}}]}}},"tal":{}}`
	var s job.State
	require.NoError(t, json.Unmarshal([]byte(early), &s))
	assert.Empty(t, s.Register("card/load", "note").Unseen())
	assert.Equal(t, `"B"`, string(s.Register("card/load", "note").Value()))
	s.Apply(job.Rec{Op: job.Op{ID: "c", Device: "x", Number: 2, Kind: job.Set, Entity: "card/load", Field: "note",
		Value: json.RawMessage(`"C"`), Parents: []string{"a"}}, Effective: 3})
	assert.Len(t, s.Register("card/load", "note").Unseen(), 1)
	s.Apply(job.Rec{Op: job.Op{ID: "d", Device: "x", Number: 3, Kind: job.Set, Entity: "card/load", Field: "done",
		Value: json.RawMessage(`true`)}, Effective: 4})
	text, err := json.Marshal(s.Register("card/load", "done"))
	require.NoError(t, err)
	assert.NotContains(t, string(text), `"p"`, "only notes store what was seen")
}
