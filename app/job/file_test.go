package job_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const readingRoom = `{"garlandry":1,
	"brief":{"title":"Reading room reopening","date":"2027-05-08",
		"in":"2027-05-08T08:00","doors":"2027-05-08T11:00","down":"2027-05-08T20:00","zone":"Europe/Lisbon"},
	"contact":{"name":"Town library","phone":"555 0100"},
	"colours":[{"id":"coral","name":"Coral","value":"#e5604d","sizes":[5,11]},{"id":"ink","name":"Ink blue",
		"value":"#24305e","sizes":[5,11,18]}],
	"crew":[{"id":"ines","name":"Ines","skill":"practised"},{"id":"bea","name":"Bea"}],
	"kit":[{"id":"hoop","kind":"frame","name":"Hoop stand","width_mm":2000}],
	"pieces":[{"id":"door","name":"Door garland","kind":"garland","frame":"hoop","recipe":"2x11@10 + 1x18@16",
		"colours":[{"colour":"coral","weight":2},{"colour":"ink","weight":1}]},
	          {"id":"shelf","name":"Shelf <ends> & \"more\" 🎈",
		"kind":"free","counts":[{"size_in":11,"colour":"ink","count":24}]}],
	"overrides":[{"id":"tie/minutes","value":1.5}],
	"choices":[{"id":"substitute/door","pick":"two-duplets"}],
	"progress":[{"key":"card/make/door","made":12,"done":true},{"key":"pack/latex/11/coral","have":40},
		{"key":"pack/tie/260","bought":30,"unneeded":true}]}`

func TestJobFileRoundTrip(t *testing.T) {
	changes, err := job.DecodeFile([]byte(readingRoom))
	require.NoError(t, err)
	first, err := job.EncodeFile(job.Preview(changes))
	require.NoError(t, err)
	changes, err = job.DecodeFile(first)
	require.NoError(t, err)
	j := job.Preview(changes)
	second, err := job.EncodeFile(j)
	require.NoError(t, err)
	assert.Equal(t, string(first), string(second))
	assert.Equal(t, `Shelf <ends> & "more" 🎈`, j.Pieces[1].Name)
	assert.Equal(t, "Town library", j.Contact.Name)
	assert.Equal(t, 1.5, *j.Overrides["tie/minutes"].Value)
	assert.True(t, j.Done("card/make/door"))
	assert.Equal(t, []int{12, 40}, []int{j.Made("card/make/door"), j.Packed("pack/latex/11/coral")})
	assert.Equal(t, 30, j.Bought("pack/tie/260"))
	assert.True(t, j.Unneeded("pack/tie/260"))
	assert.False(t, j.Unneeded("pack/latex/11/coral"))
	assert.Equal(t, 6, j.Pieces[0].Recipe.Balloons())
	assert.Equal(t, "indoors", j.Brief.Place, "the default")
	shared := job.Read("x", j.State, nil)
	without, err := job.EncodeFile(shared)
	require.NoError(t, err)
	assert.NotContains(t, string(without), "555 0100", "a helper's file has no contact")
}

func TestFileErrorsNameThePlace(t *testing.T) {
	for _, row := range []struct{ path, from, to string }{
		{"garlandry", `"garlandry":1`, `"garlandry":"one"`},
		{"garlandry", `"garlandry":1,`, ``},
		{"garlandry", `"garlandry":1`, `"garlandry":0`},
		{"brief.doors", `"doors":"2027-05-08T11:00"`, `"doors":"2027-05-08T07:00"`},
		{"brief.doors", `"doors":"2027-05-08T11:00"`, `"doors":"eleven"`},
		{"brief.down", `"down":"2027-05-08T20:00"`, `"down":"2027-05-08T09:00"`},
		{"brief.title", `"title":"Reading room reopening",`, ``},
		{"brief.titel", `"title":"Reading`, `"titel":"x","title":"Reading`},
		{"brief", `"brief":{`, `"brief":[],"was":{`},
		{"colours[1].sizes", `"sizes":[5,11,18]`, `"sizes":[5,11,19]`},
		{"colours[0].value", `"#e5604d"`, `"coral"`},
		{"colours[1].id", `"id":"ink"`, `"id":"coral"`},
		{"colours[0].id", `{"id":"coral"`, `{"id":"a b"`},
		{"pieces[0].id", `{"id":"door"`, `{"id":"new"`},
		{"pieces[0].id", `{"id":"door"`, `{"id":"a/b"`},
		{"colours[1].id", `"id":"ink"`, `"id":"ink/blue"`},
		{"pieces[0].recipe", `2x11@10 + 1x18@16`, `2x11@10 plus one`},
		{"pieces[0].kind", `"kind":"garland"`, `"kind":"tower"`},
		{"pieces[0].length_mm", `"kind":"garland"`, `"kind":"garland","length_mm":10000000`},
		{"pieces[0].colours", `"colour":"ink","weight":1`, `"colour":"gold","weight":1`},
		{"pieces[0].frame", `"frame":"hoop"`, `"frame":"arch"`},
		{"pieces[1].counts", `"colour":"ink","count":24`, `"colour":"gold","count":24`},
		{"pieces[1].counts", `"count":24`, `"count":1000000`},
		{"pieces", `"pieces":[`, `"pieces":{},"was":[`},
		{"layers[0].piece", `"progress":`, `"layers":[{"id":"up","piece":"gone"}],"progress":`},
		{"layers[1].colours", `"progress":`, `"layers":[{"id":"up","piece":"door"},{"id":"low","piece":"door",` +
			`"colours":[{"colour":"gold","weight":1}]}],"progress":`},
		{"crew[1].name", `{"id":"bea","name":"Bea"}`, `{"id":"bea"}`},
		{"progress[0].key", `"key":"card/make/door"`, `"key":"brief"`},
		{"progress[1]", `"have":40`, `"have":-40`},
		{"progress[0].made", `"made":12`, `"made":100000000`},
		{"progress", `"made":12`, `"mode":12`},
		{"guests", `"progress":`, `"guests":[],"progress":`},
		{"file", `"choices":[`, `"choices":[[`},
	} {
		t.Run(row.path+" "+row.to, func(t *testing.T) {
			require.Contains(t, readingRoom, row.from)
			changes, err := job.DecodeFile([]byte(strings.Replace(readingRoom, row.from, row.to, 1)))
			var field *job.FieldError
			require.ErrorAs(t, err, &field)
			assert.Equal(t, row.path, field.Path, field.Message)
			assert.NotEmpty(t, field.Message)
			assert.Nil(t, changes, "nothing is read in part")
		})
	}
	_, err := job.DecodeFile([]byte(`{"garlandry":2}`))
	assert.ErrorIs(t, err, job.ErrNewer)
	_, err = job.DecodeFile(make([]byte, job.MaxFileBytes+1))
	assert.ErrorContains(t, err, "4 MB")
}

// People see these messages, so they name no Go types.
func TestWrongFileShapeIsExplained(t *testing.T) {
	for _, text := range []string{`[]`, `7`, `"job"`, `{"garlandry":1,"progress":7}`, `{"garlandry":1,"brief":[]}`} {
		_, err := job.DecodeFile([]byte(text))
		if err == nil {
			t.Fatalf("%s was accepted", text)
		}
		for _, word := range []string{"Go value", "map[", "json:", "struct"} {
			if strings.Contains(err.Error(), word) {
				t.Errorf("%s: %v", text, err)
			}
		}
	}
	_, err := job.DecodeFile([]byte(`[]`))
	if !strings.Contains(err.Error(), "one object") || !strings.Contains(err.Error(), "Save as a file") {
		t.Error(err)
	}
}

func FuzzDecodeFile(f *testing.F) {
	f.Add([]byte(readingRoom))
	for _, text := range []string{"", "{", "null", "[]", `{"garlandry":1}`, `{"garlandry":1,"pieces":[null]}`,
		`{"garlandry":1,"colours":[{"id":null}]}`, `{"garlandry":1,"progress":[{"key":"card/"}]}`,
		`{"garlandry":1,"brief":null}`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		changes, err := job.DecodeFile(data)
		var field *job.FieldError
		if err != nil {
			if !errors.As(err, &field) && !errors.Is(err, job.ErrNewer) {
				t.Fatalf("an error that names no place: %v", err)
			}
			return
		}
		for _, c := range changes {
			if err := job.CheckChange(c); err != nil {
				t.Fatalf("an invalid change: %v", err)
			}
		}
		file, err := job.EncodeFile(job.Preview(changes))
		if err != nil {
			t.Fatal(err)
		}
		again, err := job.DecodeFile(file)
		if err != nil {
			t.Fatalf("the written file cannot be read: %v\n%s", err, file)
		}
		second, err := job.EncodeFile(job.Preview(again))
		if err != nil || string(second) != string(file) {
			t.Fatalf("the second file differs: %v\n%s\n%s", err, file, second)
		}
	})
}

func FuzzOpCheck(f *testing.F) {
	f.Add([]byte(`{"i":"operation1","d":"phone","n":1,"ver":1,"k":"set","e":"piece/door","f":"recipe","v":"2x11@10"}`))
	f.Add(
		[]byte(`{"i":"operation1","d":"phone","n":1,"ver":1,"k":"stocktake","e":"card/x","v":{"count":3,"covers":["a"]}}`),
	)
	f.Add([]byte(`{"i":"operation1","d":"phone","n":1,"k":"set","e":"piece/door","f":"colours","v":[{"colour":"coral",` +
		`"weight":1e999}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var op job.Op
		if json.Unmarshal(data, &op) != nil || op.Check() != nil {
			return
		}
		rec := job.Rec{Op: op, Effective: 5}
		s := job.Fold(rec, rec, job.PendingRec(op, job.Author{}))
		j := job.Read("x", s, s)
		if _, err := job.EncodeFile(j); err != nil {
			t.Fatal(err)
		}
		_ = op.Kind == job.Add && s.Tally(op.Entity).Total() != 0
	})
}
