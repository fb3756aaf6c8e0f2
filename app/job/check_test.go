package job_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var fieldRows = []struct {
	kind     string
	field    job.Field
	good     []string
	bad      []string
	contains string // in the message of every bad one
}{
	{"text", job.Field{Kind: job.Text, Max: 5}, []string{`""`, `"abcde"`, `"éééé🎈"`, `null`, ``},
		[]string{`"abcdef"`, `5`, `["a"]`, `true`}, "text"},
	{"long text", job.Field{Kind: job.LongText, Max: 3}, []string{`"a\nb"`}, []string{`"abcd"`, `{}`}, "text"},
	{"required text", job.Field{Kind: job.Text, Max: 5, Required: true}, []string{`"a"`},
		[]string{`""`, `"  "`, `null`, ``}, "needed"},
	{"choice", job.Field{Kind: job.OneOf, Choices: []job.Choice{{"air", "Air"}, {"helium", "Helium"}}},
		[]string{`"air"`, `null`}, []string{`"Air"`, `"hydrogen"`, `1`, `""`}, "air, helium"},
	{"flag", job.Field{Kind: job.Flag}, []string{`true`, `false`, `null`}, []string{`1`, `"true"`, `[]`},
		"true or false"},
	{"length", job.Field{Kind: job.Length, Min: 100, Max: 500000}, []string{`100`, `500000`, `3048.5`},
		[]string{`99.9`, `500000.1`, `-3`, `"3 m"`, `1e9`}, "100 to 500000 mm"},
	{"mass", job.Field{Kind: job.Mass, Min: 0, Max: 2000}, []string{`0`, `1550.5`}, []string{`-1`, `2001`, `"2 kg"`},
		"0 to 2000 g (0 g to 2 kg, 0 oz to 4.41 lb)"},
	{"small length", job.Field{Kind: job.SmallLength, Min: 10, Max: 900}, []string{`10`, `254`}, []string{`9`, `901`},
		"10 to 900 mm"},
	{"temperature", job.Field{Kind: job.Temperature, Min: -20, Max: 50}, []string{`-20`, `0`, `50`},
		[]string{`-20.1`, `51`, `"warm"`}, "-20 to 50 degrees C"},
	{"whole", job.Field{Kind: job.Whole, Min: 1, Max: 20}, []string{`1`, `20`, `2e0`},
		[]string{`0`, `21`, `2.5`, `1e300`, `-1e300`}, "1 to 20"},
	{"number", job.Field{Kind: job.Number, Min: 0, Max: 99.9}, []string{`0`, `99.9`, `1e-9`},
		[]string{`-1e-9`, `100`, `1e400`}, "0 to 99.9"},
	{"day", job.Field{Kind: job.Day}, []string{`"2027-05-08"`, `"2000-01-01"`, `"2100-12-31"`, `""`},
		[]string{`"2027-02-30"`, `"1999-12-31"`, `"2101-01-01"`, `"8.5.2027"`, `20270508`, `"2027-05-08T10:00"`},
		"2027-05-08"},
	{"moment", job.Field{Kind: job.PointInTime}, []string{`"2027-05-08T16:00"`, `""`},
		[]string{`"2027-05-08"`, `"2027-05-08T24:01"`, `"2027-05-08T16:00Z"`, `"9999-05-08T16:00"`}, "2027-05-08T16:00"},
	{"recipe", job.Field{Kind: job.Recipe}, []string{`"2x11@10 + 1x18@16"`, `"3x11"`, `""`},
		[]string{`"0x11"`, `"2x13@10"`, `"two elevens"`, `"99x11@10"`, `"2x11@40"`, `7`}, ""},
	{"colour", job.Field{Kind: job.HexColour}, []string{`"#e5604d"`, `"#FFFFFF"`},
		[]string{`"e5604d"`, `"#e5604"`, `"#e5604dd"`, `"#gggggg"`, `"#-12345"`, `"#+12345"`, `"red"`, `0`}, "#"},
	{"sizes", job.Field{Kind: job.SizeList, Required: true}, []string{`[5,11,18]`, `[36]`},
		[]string{`[]`, `[13]`, `[11,0]`, `"11"`, `[11.5]`, `null`}, ""},
	{"shares", job.Field{Kind: job.Shares}, []string{`[]`, `[{"colour":"coral","weight":2}]`,
		`[{"colour":"coral","weight":0}]`}, []string{`[{"colour":"coral","weight":-1}]`, `[{"colour":"","weight":1}]`,
		`[{"colour":"a b","weight":1}]`, `[{"colour":"coral","weight":1001}]`, `{}`, shares(41)}, ""},
	{"counts", job.Field{Kind: job.TypedCounts}, []string{`[{"size_in":11,"to_in":10,"colour":"coral","count":24}]`,
		`[]`}, []string{
		`[{"size_in":13,"colour":"coral","count":1}]`, `[{"size_in":11,"colour":"coral","count":-1}]`,
		`[{"size_in":11,"colour":"coral","count":10001}]`,
		`[{"size_in":11,"colour":"coral","count":1,"to_in":-1}]`,
		`[{"size_in":11,"colour":"coral","count":1,"to_in":61}]`, `[{"size_in":11,"count":1}]`,
		`[{"size_in":11,"colour":"c","count":1.5}]`}, ""},
	{"lengths", job.Field{Kind: job.Lengths, Min: 100, Max: 9000}, []string{`[100,9000]`, `[]`},
		[]string{`[99]`, `[100,9001]`, `["1"]`, "[" + strings.Repeat("200,", 50) + "200]"}, ""},
	{"reference", job.Field{Kind: job.Reference, Refers: "kit"}, []string{`"frame-1"`, `""`},
		[]string{`"a/b"`, `"ä"`, `5`, `"` + strings.Repeat("x", 41) + `"`}, "kit"},
	{"spans", job.Field{Kind: job.Spans}, []string{`[]`,
		`[{"from":"2027-05-08T20:00","to":"2027-05-08T22:00"},{"from":"2027-05-06T19:00","to":"2027-05-06T21:00"}]`,
		`null`}, []string{
		`[{"from":"2027-05-08T20:00","to":"2027-05-08T20:00"}]`, `[{"from":"2027-05-08T20:00"}]`,
		`[{"from":"","to":"2027-05-08T20:00"}]`, `[{"from":"20:00","to":"22:00"}]`, `"20:00-22:00"`, `[5]`,
		"[" + strings.Repeat(`{"from":"2027-05-08T20:00","to":"2027-05-08T22:00"},`,
			job.MaxSpans) + `{"from":"2027-05-08T20:00","to":"2027-05-08T22:00"}]`}, ""},
	{"a kind that is not known", job.Field{Kind: "hologram"}, nil, []string{`1`}, "hologram"},
}

func TestFieldCheck(t *testing.T) {
	for _, row := range fieldRows {
		t.Run(row.kind, func(t *testing.T) {
			row.field.Name, row.field.Label = "probe", "Text probe"
			for _, value := range row.good {
				assert.NoError(t, row.field.Check(json.RawMessage(value)), value)
			}
			for _, value := range row.bad {
				err := row.field.Check(json.RawMessage(value))
				var field *job.FieldError
				if assert.True(t, errors.As(err, &field), "%s passes", value) {
					assert.Equal(t, "probe", field.Path)
					assert.Contains(t, field.Message, row.contains, value)
				}
			}
		})
	}
}

func shares(n int) string {
	return "[" + strings.TrimSuffix(strings.Repeat(`{"colour":"coral","weight":1},`, n), ",") + "]"
}

func TestEveryFieldOfEveryNounTakesItsDefault(t *testing.T) {
	for _, n := range job.Nouns() {
		found, known := job.FindNoun(n.Name + map[bool]string{true: "", false: "/x"}[n.Single])
		require.True(t, known, n.Name)
		assert.Equal(t, n.Name, found.Name)
		assert.Equal(t, n.Single, found.Single)
		names := map[string]bool{}
		for _, f := range append(n.Fields, job.ProgressFields()...) {
			if f.Default != "" && f.Default != "null" {
				assert.NoError(t, f.Check(json.RawMessage(f.Default)), "%s.%s", n.Name, f.Name)
			}
			assert.NotEmpty(t, f.Label, "%s.%s", n.Name, f.Name)
		}
		for _, f := range n.Fields {
			assert.False(t, names[f.Name], "%s.%s is there twice", n.Name, f.Name)
			names[f.Name] = true
		}
	}
	_, known := job.FindNoun("piece")
	assert.False(t, known, "a listed noun needs an id")
	_, known = job.FindNoun("pieces/x")
	assert.False(t, known)
}

func TestInvalidOperations(t *testing.T) {
	good := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Set,
		Entity: "card/make/door", Field: "done", Value: json.RawMessage("true")}
	require.NoError(t, good.Check())
	for path, damage := range map[string][]func(*job.Op){
		"i": {func(o *job.Op) { o.ID = "" }, func(o *job.Op) { o.ID = "short" },
			func(o *job.Op) { o.ID = strings.Repeat("x", 41) }, func(o *job.Op) { o.ID = "operation<1>" }},
		"d": {func(o *job.Op) { o.Device = "" }, func(o *job.Op) { o.Device = "a b" }},
		"n": {func(o *job.Op) { o.Number = 0 }},
		"k": {func(o *job.Op) { o.Kind = "" }, func(o *job.Op) { o.Kind = job.Kind(strings.Repeat("k", 41)) }},
		"e": {func(o *job.Op) { o.Entity = "" },
			func(o *job.Op) { o.Entity = strings.Repeat("e", job.MaxEntityBytes+1) }},
		"f": {func(o *job.Op) { o.Field = "" },
			func(o *job.Op) { o.Field = strings.Repeat("f", job.MaxFieldBytes+1) },
			func(o *job.Op) { o.Kind, o.Field = job.Undo, "" }},
		"p": {func(o *job.Op) { o.Parents = []string{"a", "b", "c"} }},
		"v": {func(o *job.Op) { o.Value = json.RawMessage("{") },
			func(o *job.Op) { o.Value = json.RawMessage(`"` + strings.Repeat("x", job.MaxOpBytes) + `"`) },
			func(o *job.Op) { o.Kind, o.Value = job.Stocktake, json.RawMessage(`{"count":-1}`) },
			func(o *job.Op) { o.Kind, o.Value = job.Stocktake, nil },
			func(o *job.Op) { o.Kind, o.Value = job.Stocktake, json.RawMessage(`{"count":1000001}`) }},
		"dx": {func(o *job.Op) { o.Kind, o.Delta = job.Add, 0 }, func(o *job.Op) { o.Kind, o.Delta = job.Add, 100001 },
			func(o *job.Op) { o.Kind, o.Delta = job.Add, -100001 }},
		"done":  {func(o *job.Op) { o.Value = json.RawMessage("3") }},
		"title": {func(o *job.Op) { o.Entity, o.Field, o.Value = "brief", "title", json.RawMessage(`""`) }},
	} {
		for i, s := range damage {
			op := good
			s(&op)
			err := op.Check()
			require.ErrorIs(t, err, job.ErrInvalid, "%s %d", path, i)
			var field *job.FieldError
			require.ErrorAs(t, err, &field, "%s %d", path, i)
			assert.Equal(t, path, field.Path, "%d: %v", i, err)
		}
	}
	for _, newer := range []job.Op{{Kind: "photo", Field: ""},
		{Kind: job.Set, Entity: "hologram/x", Field: "beam", Value: []byte("1")},
		{Kind: job.Set, Entity: "piece/x", Field: "beam", Value: []byte("1")}} {
		newer.ID, newer.Device, newer.Number, newer.Version = "operation1", "phone", 1, 9
		if newer.Entity == "" {
			newer.Entity = "card/x"
		}
		assert.NoError(t, newer.Check(), "unknown kinds and fields pass")
	}
}

func TestRoles(t *testing.T) {
	for _, row := range []struct {
		role  job.Role
		kind  job.Kind
		where string // entity field
		may   bool
	}{
		{job.Owner, job.Set, "brief title", true}, {job.Owner, job.Set, "own/contact name", true},
		{job.Lead, job.Set, "brief title", false}, {job.Lead, job.Set, "own/contact name", false},
		{job.Lead, job.Set, "piece/x name", true}, {job.Lead, job.Set, "card/x minutes", true},
		{job.Lead, job.Set, "colour/x name", false}, {job.Lead, job.Set, "override/x value", false},
		{job.Lead, job.Set, "added/x text", true}, {job.Lead, job.Set, "layer/x count", true},
		{job.Helper, job.Set, "layer/x count", false},
		{job.Lead, job.Set, "box/x at_mm", true},
		{job.Helper, job.Set, "box/x at_mm", false}, {job.Helper, job.Set, "piece/x at_mm", false},
		{job.Helper, job.Set, "card/x done", true}, {job.Helper, job.Set, "pack/x have", true},
		{job.Helper, job.Set, "card/x taken", true}, {job.Helper, job.Set, "card/x took", true},
		{job.Helper, job.Set, "card/x minutes", false},
		{job.Helper, job.Set, "pack/x bought", true}, {job.Helper, job.Set, "pack/x unneeded", true},
		{job.Helper, job.Set, "kit/x unneeded", false},
		{job.Helper, job.Add, "card/x ", true}, {job.Helper, job.Undo, "card/x id", true},
		{job.Helper, job.Stocktake, "card/x ", true}, {job.Helper, job.Set, "piece/x name", false},
		{job.Helper, job.Set, "cards/x done", false}, {"", job.Set, "card/x done", false},
		{"admin", job.Set, "card/x done", false},
	} {
		entity, field, _ := strings.Cut(row.where, " ")
		assert.Equal(t, row.may, row.role.MayField(row.kind, entity, field),
			fmt.Sprintf("%s %s %s", row.role, row.kind, row.where))
	}
}
