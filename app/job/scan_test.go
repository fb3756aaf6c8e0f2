package job_test

import (
	"encoding/json"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func nested(depth int) string { return strings.Repeat("[", depth) + strings.Repeat("]", depth) }

func TestScanJSON(t *testing.T) {
	long := strings.Repeat("x", 200<<10)
	for _, row := range []struct {
		name, text string
		safe       bool
	}{
		{"nothing", ``, true},
		{"a plain value", `{"a":[1,-2.5e3,"text \"quoted\" \\",null,true]}`, true},
		{"as deep as allowed", nested(job.MaxDepth), true},
		{"one deeper", nested(job.MaxDepth + 1), false},
		{"objects nest too", strings.Repeat(`{"a":`, 65) + "1" + strings.Repeat("}", 65), false},
		{"brackets in a text do not nest", `"` + strings.Repeat("[", 9000) + `"`, true},
		{"an escaped quote does not end a text", `"\"` + strings.Repeat("[", 9000) + `"`, true},
		{"deep and not closed", strings.Repeat("[", 9000), false},
		{"wide", "[" + strings.Repeat("1,", 100_000) + "1]", true},
		{"a number as long as allowed", strings.Repeat("9", 64), true},
		{"a longer one", strings.Repeat("9", 65), false},
		{"a long exponent", "1e" + strings.Repeat("9", 80), false},
		{"digits in a text", `"` + strings.Repeat("9", 80) + `"`, true},
		{"a text of 200 kB", `"` + long + `"`, false},
		{"one that does not end", `"` + long, false},
		{"a surrogate pair", `"\ud83c\udf88"`, true},
		{"half a pair", `"\ud83c"`, false},
		{"half a pair and a line break", `"\ud83c\n"`, false},
		{"the second half alone", `"\uDF88"`, false},
		{"two first halves", `"\ud83c\ud83c\udf88"`, false},
		{"control characters", `"\u202e\u0000"`, true},
		{"not UTF-8", "\"\xff\"", false},
		{"half a pair as bytes", "\"\xed\xa0\xbc\"", false},
		{"cut off in an escape", `"\u12`, true},
	} {
		err := job.ScanJSON([]byte(row.text), job.MaxDepth)
		assert.Equal(t, row.safe, err == nil, "%s: %v", row.name, err)
	}
}

// An operation of any kind is refused if it could crash a phone.
func TestCheckRefusesUnsafeOperations(t *testing.T) {
	deep := json.RawMessage(nested(9000))
	door := "card/make/door"
	for _, row := range []struct {
		name string
		op   job.Op
	}{
		{"deep, of an unknown kind", job.Op{Kind: "wave", Entity: door, Value: deep}},
		{"deep, in a field", job.Op{Kind: job.Set, Entity: door, Field: "done", Value: deep}},
		{"deep, in an unknown field", job.Op{Kind: job.Set, Entity: "piece/x", Field: "later", Value: deep}},
		{"deep, beside an addition", job.Op{Kind: job.Add, Entity: door, Delta: 1, Value: deep}},
		{"deep, beside an undo", job.Op{Kind: job.Undo, Entity: door, Field: "operation0", Value: deep}},
		{"deep, in a count", job.Op{Kind: job.Stocktake, Entity: door,
			Value: json.RawMessage(`{"count":1,"x":` + nested(9000) + `}`)}},
		{"a long parent", job.Op{Kind: job.Add, Entity: door, Delta: 1, Parents: []string{strings.Repeat("p", 900_000)}}},
		{"control characters in its entity", job.Op{Kind: job.Add, Entity: "card/\x00", Delta: 1}},
		{"control characters in its field", job.Op{Kind: job.Set, Entity: "piece/x", Field: "\x1b[2J",
			Value: json.RawMessage("1")}},
		{"no UTF-8 in its kind", job.Op{Kind: "\xff", Entity: door}},
		{"half a pair", job.Op{Kind: job.Set, Entity: "piece/x", Field: "later", Value: json.RawMessage(`"\ud800"`)}},
		{"an emptied operation", job.Op{Kind: job.Emptied, Entity: door}},
		{"setting aside nothing", job.Op{Kind: job.Set, Entity: "aside/", Field: "aside", Value: json.RawMessage("true")}},
		{"setting aside with a number", job.Op{Kind: job.Set, Entity: "aside/operation1", Field: "aside",
			Value: json.RawMessage("7")}},
	} {
		op := row.op
		op.ID, op.Device, op.Number, op.Version = "operation1", "phone", 1, 1
		assert.ErrorIs(t, op.Check(), job.ErrInvalid, row.name)
	}
}

func TestUnknownKindsAreForTheOwner(t *testing.T) {
	for _, row := range []struct {
		role   job.Role
		kind   job.Kind
		entity string
		may    bool
	}{
		{job.Owner, "wave", "piece/x", true}, {job.Lead, "wave", "piece/x", false}, {job.Helper, "wave", "card/x", false},
		{job.Lead, job.Add, "card/x", true}, {job.Helper, job.Stocktake, "card/x", true},
		{job.Helper, job.Undo, "pack/x", true},
		{job.Lead, job.Set, "aside/operation1", false}, {job.Helper, job.Set, "aside/operation1", false},
		{job.Owner, job.Set, "aside/operation1", true},
	} {
		assert.Equal(t, row.may, row.role.MayField(row.kind, row.entity, "done"), "%s %s %s", row.role, row.kind, row.entity)
	}
}

func TestAJobFileThatNestsTooDeep(t *testing.T) {
	for name, text := range map[string]string{
		"an unknown part": `{"garlandry":1,"later":` + nested(9000) + `}`,
		"a field":         `{"garlandry":1,"brief":{"title":` + nested(9000) + `}}`,
		"half a pair":     `{"garlandry":1,"brief":{"title":"\ud800"}}`,
	} {
		_, err := job.DecodeFile([]byte(text))
		var field *job.FieldError
		require.ErrorAs(t, err, &field, name)
		assert.Equal(t, "file", field.Path, name)
	}
}

// Fold skips unsafe records that an older build accepted, so that no page or core crashes.
func TestFoldSkipsUnsafeRecords(t *testing.T) {
	deep := rec("operation1", 1, 10, job.Change{Kind: "wave", Entity: "card/x", Value: []byte(nested(9000))})
	set := rec("operation2", 2, 11, job.Change{Entity: "piece/x", Field: "name", Value: []byte(nested(9000))})
	emptied := rec("operation3", 3, 12, job.Change{Kind: job.Emptied, Entity: "card/x"})
	s := job.Fold(deep, set, emptied)
	assert.Empty(t, s.Unknown)
	assert.Empty(t, s.Registers)
	assert.EqualValues(t, 12, s.Last)
}

func FuzzScanJSON(f *testing.F) {
	f.Add([]byte(`{"a":["\ud83c\udf88",1e5,"\\"]}`))
	f.Add([]byte(`"\u`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if job.ScanJSON(data, 3) != nil || !json.Valid(data) {
			return
		}
		var value any
		if err := json.Unmarshal(data, &value); err != nil {
			return // a number beyond a float
		}
		if d := depthOf(value); d > 3 {
			t.Fatalf("%s nests %d deep", data, d)
		}
	})
}

func depthOf(value any) int {
	deepest := 0
	switch v := value.(type) {
	case []any:
		for _, inner := range v {
			deepest = max(deepest, depthOf(inner))
		}
	case map[string]any:
		for _, inner := range v {
			deepest = max(deepest, depthOf(inner))
		}
	default:
		return 0
	}
	return 1 + deepest
}
