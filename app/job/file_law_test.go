package job_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// valuesOf lists values of each kind of field. A field may refuse some of them.
var valuesOf = map[job.FieldKind][]string{
	job.Text: {`"Door"`, `"40"`, `""`}, job.LongText: {`"Mind the\ncat"`}, job.Flag: {"true", "false"},
	job.Recipe: {`"2x11@10"`, `""`}, job.Length: {"0", "1500", "200000"}, job.SmallLength: {"50"},
	job.Temperature: {"21.5"}, job.Whole: {"-1", "3", "11"}, job.Number: {"0", "12.5", "100"},
	job.Day:         {`"2027-05-08"`, `""`},
	job.PointInTime: {`"2027-05-08T08:00"`, `"2027-05-08T11:00"`, `"2027-05-30T11:00"`, `""`},
	job.HexColour:   {`"#e5604d"`}, job.SizeList: {"[5,11]"},
	job.Shares:      {`[{"colour":"coral","weight":2},{"colour":"ink","weight":1}]`, "[]"},
	job.TypedCounts: {`[{"size_in":11,"colour":"gold","count":24}]`, "[]"}, job.Lengths: {"[2400]"},
	job.Reference: {`"hoop"`, `"coral"`, `"new"`, `""`},
}

// drawChange draws one change.
func drawChange(t *rapid.T, made []string) job.Change {
	card := rapid.SampledFrom([]string{"card/make/coral", "card/site/hang", "pack/latex/11/ink"}).Draw(t, "card")
	var c job.Change
	switch rapid.SampledFrom([]string{"design", "design", "design", "design", "remove", "add", "count", "undo",
		"tick"}).Draw(t, "what") {
	case "add":
		c = job.Count(card, rapid.SampledFrom([]int64{1, -3, 100000}).Draw(t, "delta"))
	case "count":
		c = job.Put(card, "", job.Counted{N: rapid.SampledFrom([]int64{0, 12, 1000000}).Draw(t, "counted"), Covers: made})
		c.Kind = job.Stocktake
	case "undo":
		c = job.TakeBack(card, rapid.SampledFrom(append(made, "operation000")).Draw(t, "undone"))
	case "tick":
		c = rapid.SampledFrom([]job.Change{job.Put(card, "done", true), job.Put(card, "have", 40),
			job.Put("pack/tie/260", "bought", 7), job.Put("pack/tie/260", "unneeded", true),
			job.Put(card, "done", false)}).
			Draw(t, "tick")
	case "remove":
		noun := rapid.SampledFrom([]string{"colour", "kit", "piece", "layer", "member", "added", "override"}).Draw(t, "noun")
		c = job.Put(noun+"/"+rapid.SampledFrom([]string{"coral", "hoop"}).Draw(t, "id"), "removed",
			rapid.Bool().Draw(t, "removed"))
	default:
		n := rapid.SampledFrom(job.Nouns()).Draw(t, "noun")
		f := rapid.SampledFrom(n.Fields).Draw(t, "field")
		entity := n.Name
		if !n.Single {
			entity += "/" + rapid.SampledFrom([]string{"coral", "ink", "hoop", "new", "a/b", "of a later version",
				strings.Repeat("x", 60)}).
				Draw(t, "id")
		}
		values := append([]string{"null"}, valuesOf[f.Kind]...)
		for _, choice := range f.Choices {
			values = append(values, `"`+choice.Value+`"`)
		}
		c = job.Change{Kind: job.Set, Entity: entity, Field: f.Name,
			Value: json.RawMessage(rapid.SampledFrom(values).Draw(t, "value"))}
	}
	return c
}

// The file of any job can be imported and gives the same job, even with removed things that pieces still name,
// incomplete ones, times that contradict each other, and ids that no page opens.
func TestEveryJobFileCanBeRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shared, private := job.NewState(), job.NewState()
		var made []string
		for n := range rapid.IntRange(0, 80).Draw(t, "operations") {
			c := drawChange(t, made)
			if job.CheckChange(c) != nil {
				continue
			}
			r := rec(fmt.Sprintf("operation%03d", n), uint64(n+1), rapid.Int64Range(1, 100).Draw(t, "stamp"), c)
			made = append(made, r.ID)
			if job.Private(c.Entity) {
				private.Apply(r)
			} else {
				shared.Apply(r)
			}
		}
		before := job.Read("x", shared, private)
		file, err := job.EncodeFile(before)
		require.NoError(t, err)
		changes, err := job.DecodeFile(file)
		require.NoError(t, err, "%s", file)
		for _, c := range changes {
			require.NoError(t, job.CheckChange(c))
		}
		after := job.Preview(changes)
		again, err := job.EncodeFile(after)
		require.NoError(t, err)
		twice, err := job.DecodeFile(again)
		require.NoError(t, err)
		require.Len(t, twice, len(changes), "%s\n%s", file, again)
		same(t, before, after)
	})
}

// same compares two jobs, except for ids that no page opens.
func same(t require.TestingT, before, after job.Job) {
	require.Len(t, after.Pieces, len(before.Pieces))
	for i := range after.Pieces {
		if strings.HasPrefix(after.Pieces[i].ID, "piece-") {
			after.Pieces[i].ID = ""
		}
	}
	for i, p := range before.Pieces {
		if p.ID == "new" || len(p.ID) > 40 || strings.ContainsAny(p.ID, "/ ") {
			before.Pieces[i].ID = ""
		}
		for _, s := range p.Colours {
			_, wasThere := before.Colour(s.Colour)
			_, isThere := after.Colour(s.Colour)
			require.Equal(t, wasThere, isThere, "a colour is removed only if it was before")
		}
	}
	require.ElementsMatch(t, before.Pieces, after.Pieces)
	layers := 0
	for _, l := range before.Layers {
		if l.Piece != "new" { // such a piece gets another id in the file
			layers++
		}
	}
	require.Len(t, after.Layers, layers)
	for _, l := range after.Layers {
		for _, was := range before.Layers {
			if was.ID == l.ID {
				require.Equal(t, was, l)
			}
		}
	}
	require.Len(t, after.Colours, len(before.Colours))
	require.Len(t, after.Kit, len(before.Kit))
	require.Len(t, after.Crew, len(before.Crew))
	require.Len(t, after.Added, len(before.Added))
	require.Equal(t, before.Contact.Phone, after.Contact.Phone)
	for _, key := range []string{"card/make/coral", "card/site/hang", "pack/latex/11/ink"} {
		require.Equal(t, min(before.Made(key), 1000000), after.Made(key), key)
		require.Equal(t, before.Done(key), after.Done(key), key)
		require.Equal(t, before.Packed(key), after.Packed(key), key)
	}
}

func TestARemovedColourStaysWithItsPieces(t *testing.T) {
	changes, err := job.DecodeFile([]byte(readingRoom))
	require.NoError(t, err)
	changes = append(changes, job.Put("colour/coral", "removed", true), job.Put("kit/hoop", "removed", true),
		job.Put("colour/unused", "name", "Unused"), job.Put("colour/unused", "removed", true))
	file, err := job.EncodeFile(job.Preview(changes))
	require.NoError(t, err)
	assert.NotContains(t, string(file), "Unused", "a removed colour that no piece names is left out")
	imported, err := job.DecodeFile(file)
	require.NoError(t, err)
	j := job.Preview(imported)
	door, _ := j.Piece("door")
	assert.Equal(t, "coral", door.Colours[0].Colour)
	assert.Equal(t, "hoop", door.Frame)
	_, known := j.Colour("coral")
	assert.False(t, known, "it is still removed")
	_, known = j.KitItem("hoop")
	assert.False(t, known)
	assert.Equal(t, `"Coral"`, string(j.State.Register("colour/coral", "name").Value()), "it can be restored")
}

func TestLargeCountRoundTrip(t *testing.T) {
	card := "card/make/door"
	changes := []job.Change{job.Put("brief", "title", "Big"), job.Count(card, 100000), job.Count(card, 100000),
		job.Count(card, 57)}
	file, err := job.EncodeFile(job.Preview(changes))
	require.NoError(t, err)
	imported, err := job.DecodeFile(file)
	require.NoError(t, err)
	assert.Equal(t, 200057, job.Preview(imported).Made(card))
}
