package page_test

import (
	"slices"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typedJob creates the reading room job through the pages, as a person would.
func typedJob(t *testing.T) (*world, *visitor) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/")
	assert.Contains(t, v.text(), "No job yet", "an empty list must explain itself")
	v.visit("/new").submit("#new-job", form.Values{
		"title": {
			"Reading room reopening",
		}, "date": {"2027-05-08"}, "in": {"2027-05-08T08:30"}, "doors": {"2027-05-08T11:00"},
		"piece.garland": {"10'6\""}, "piece.bouquets": {"6"}, "colours": {"coral", "ink-blue", "gold-mirror"}, "crew": {"3"},
	})
	require.Equal(t, 200, v.reply.Status, "%v", v.text())
	return w, v
}

func TestTypeAWholeNewJob(t *testing.T) {
	_, v := typedJob(t)
	j := v.current()
	assert.Equal(t, "Reading room reopening", j.Brief.Title)
	assert.Equal(t, job.Moment("2027-05-08T11:00"), j.Brief.Doors)
	assert.Equal(t, "imperial", j.Brief.Units)
	require.Len(t, j.Pieces, 2)
	assert.Equal(t, 3200.4, j.Pieces[0].LengthMM)
	assert.EqualValues(t, "garland", j.Pieces[0].Kind)
	assert.Equal(t, 6, j.Pieces[1].Count)
	require.Len(t, j.Colours, 3)
	assert.Equal(t, []int{5, 11}, j.Colours[2].Sizes, "mirror finishes exist in the small sizes only")
	require.Len(t, j.Crew, 3)
	assert.Equal(t, "Dora", j.Crew[0].Name)
	assert.Equal(t, "practised", j.Crew[0].Skill)
	assert.Equal(t, "beginner", j.Crew[2].Skill)
	p := plan.Make(j)
	assert.Positive(t, p.Pieces[0].Clusters)
	assert.NotEmpty(t, p.Cards)
	assert.Contains(t, flashOf(v), "Reading room reopening: here is the first plan.")
}

// TestFirstPlanInTwelveTaps checks that a first plan takes at most twelve taps on fields, boxes or buttons.
func TestFirstPlanInTwelveTaps(t *testing.T) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "Dora")
	taps := 1 // "New job" on the first page
	v.visit("/")
	require.Equal(t, 1, v.doc.Find(`#page a[href="/new"]`).Length())
	v.visit("/new")
	set := form.Values{}
	set["build"] = []string{"garland", "column"}
	taps += 2
	set["colours"] = []string{"coral", "ink-blue", "sand"}
	taps += 3
	v.submit("#new-job", set)
	taps++
	require.Equal(t, 200, v.reply.Status)
	p := plan.Make(v.current())
	require.Len(t, p.Pieces, 2)
	assert.Positive(t, p.Pieces[0].Clusters)
	assert.Positive(t, p.Pieces[1].Clusters)
	assert.NotEmpty(t, p.Pack)
	assert.True(t, p.Window.Known)
	assert.Equal(t, "Garland and 2 columns, 16 January", v.current().Brief.Title)
	assert.LessOrEqual(t, taps, 12)
}

func TestNewJobKeepsWhatWasTyped(t *testing.T) {
	v := newWorld(t).visitor(job.Owner, "Dora")
	v.visit("/new").submit("#new-job", form.Values{
		"title": {""}, "date": {"2027-05-08"}, "in": {"2027-05-08T12:00"}, "doors": {"2027-05-08T11:00"}, "units": {"metric"},
		"piece.garland": {
			"-3 m",
		}, "piece.column": {"two"}, "piece.numbers": {"abc"}, "colours": {"coral", "sand"}, "other_colours": {"mustard"},
		"crew": {"4"},
	})
	require.Equal(t, 422, v.reply.Status)
	assert.Empty(t, v.jobs, "nothing may be written")
	left := standing(v.doc.Find("#new-job"))
	kept := form.Values{"date": {"2027-05-08"}, "in": {"2027-05-08T12:00"}, "piece.garland": {"-3 m"},
		"piece.column": {"two"}, "colours": {"coral", "sand"}, "other_colours": {"mustard"}, "crew": {"4"},
		"units": {"metric"}}
	for name, want := range kept {
		assert.Equal(t, want, left[name], name)
	}
	for _, id := range []string{"f-doors", "f-piece_2egarland", "f-piece_2ecolumn", "f-piece_2enumbers"} {
		assert.Equal(t, 1, v.doc.Find("#"+id+"-error").Length(), "the error must be at %s", id)
		assert.Equal(t, 1, v.doc.Find(`.wronglist a[href="#`+id+`"]`).Length(), "the top must link to it")
	}
	assert.Contains(t, v.doc.Find("#f-piece_2egarland-error").Text(), "0.1 m to 500 m")
}

func TestEditPieces(t *testing.T) {
	_, v := typedJob(t)
	id := v.current().ID
	base := "/jobs/" + id
	garland := v.current().Pieces[0].ID
	before := plan.Make(v.current()).Pieces[0].Clusters

	v.visit(base + "/pieces/" + garland)
	require.Equal(t, 1, v.doc.Find("#recount").Length())
	v.submit("#edit-piece",
		form.Values{"length_mm": {"20 ft"}, "name": {"Door garland 🎈 <b>&"}, "notes": {"above\nthe door"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Contains(t, flashOf(v), "Saved Door garland 🎈 <b>&.", "markup must stay text")
	assert.Equal(t, 6096.0, v.current().Pieces[0].LengthMM)
	assert.Greater(t, plan.Make(v.current()).Pieces[0].Clusters, before)

	v.visit(base+"/pieces/"+garland).submit("#edit-piece", nil)
	assert.Contains(t, flashOf(v), "Nothing was changed.", "an unchanged form must write nothing")

	v.visit(base + "/pieces/new")
	assert.Equal(t, 9, v.doc.Find(`#page a.pick[href*="pieces/new?kind="]`).Length(), "each kind, and the arch")
	v.visit(base+"/pieces/new?kind=column").
		submit("#edit-piece", form.Values{"name": {"Stair columns"}, "height_mm": {"6 ft"}, "count": {"2"}})
	require.Len(t, v.current().Pieces, 3)
	added := v.current().Pieces[2]
	assert.Equal(t, "2x11@9.5", added.Recipe.String(), "columns start with quads")
	assert.Len(t, added.Colours, 3, "new pieces use every colour")
	assert.Positive(t, plan.Make(v.current()).Pieces[2].Clusters)

	v.visit(base+"/pieces").submit(`form[id^="up-`+added.ID+`"]`, nil)
	assert.Equal(t, added.ID, v.current().Pieces[1].ID, "it must have moved up by one")
	v.submit(`form[id^="up-`+added.ID+`"]`, nil)
	assert.Equal(t, added.ID, v.current().Pieces[0].ID)
	v.submit(`form[id^="down-`+added.ID+`"]`, nil)
	assert.Equal(t, added.ID, v.current().Pieces[1].ID)

	v.visit(base+"/pieces/"+added.ID).submit("#copy-piece", nil)
	require.Len(t, v.current().Pieces, 4)
	assert.Equal(t, "Stair columns (copy)", v.current().Pieces[3].Name)
	assert.Equal(t, added.HeightMM, v.current().Pieces[3].HeightMM)

	v.visit(base+"/pieces/"+added.ID).submit("#remove-piece", nil)
	require.Len(t, v.current().Pieces, 3)
	v.submit("#flash form", nil)
	require.Len(t, v.current().Pieces, 4, "undo must restore the piece")
	assert.Equal(t, added.ID, v.current().Pieces[1].ID, "in its old place")
}

func TestLiveRecountAndAnotherKind(t *testing.T) {
	w, v := typedJob(t)
	garland := v.current().Pieces[0].ID
	address := "/jobs/" + v.current().ID + "/pieces/" + garland
	v.visit(address)
	first := v.doc.Find("#recount .big b").Text()
	seq := w.seq
	v.visit(address + "?name=Door&kind=garland&line=typed&length_mm=" + "30+ft&recipe=3x11%4010")
	assert.NotEqual(t, first, v.doc.Find("#recount .big b").Text(), "it must count the typed values")
	assert.Equal(t, "30 ft", v.doc.Find("#f-length_5fmm").AttrOr("value", ""), "the text must stay as typed")
	v.visit(address + "?name=Door&kind=garland&line=typed&length_mm=30+miles&recipe=3x11")
	assert.Equal(t, 200, v.reply.Status)
	assert.Contains(t, v.doc.Find("#recount").Text(), "4 in to 1640 ft 5 in",
		"while typing, the error must be beside the count")
	assert.Equal(t, 0, v.doc.Find(".wronglist").Length())
	v.visit(address + "?name=Door&kind=garland&line=arch&length_mm=30+ft")
	assert.Equal(t, 1, v.doc.Find("#f-height_5fmm").Length(), "an arch needs a height")
	assert.Equal(t, 0, v.doc.Find("#f-length_5fmm").Length())
	assert.Equal(t, seq, w.seq, "a preview must write nothing")

	v.visit(address+"?kind=hoop").submit("#edit-piece", form.Values{"diameter_mm": {"7 ft"}})
	assert.EqualValues(t, "hoop", v.current().Pieces[0].Kind)
	assert.InDelta(t, 2133.6, v.current().Pieces[0].DiameterMM, 0.01)
}

func TestTickCountPackAndUndo(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	p := plan.Make(v.current())
	count := p.Cards[slices.IndexFunc(p.Cards, func(c task.Card) bool { return c.Count > 0 })]
	tick := p.Cards[slices.IndexFunc(p.Cards, func(c task.Card) bool { return c.Count == 0 })]
	helper := w.visitor(job.Helper, "Ines")
	back := "/jobs/" + id + "/cards"
	act := func(name, entity string, more form.Values) *visitor {
		values := form.Values{"act": {name}, "e": {entity}, "back": {back}}
		for key, list := range more {
			values[key] = list
		}
		return helper.post("/jobs/"+id+"/do", values)
	}
	act("tick", tick.Key, nil)
	assert.Equal(t, back, helper.at, "it must go back to the page of the tick")
	assert.True(t, v.current1(id).Done(tick.Key))
	helper.submit("#flash form", nil)
	assert.False(t, v.current1(id).Done(tick.Key), "Undo must untick it")

	act("add", count.Key, form.Values{"n": {"5"}})
	act("add", count.Key, form.Values{"n": {"2"}})
	assert.Equal(t, 7, v.current1(id).Made(count.Key))
	last := v.current1(id).State.Tally(count.Key).Entries[1].ID
	act("undo", count.Key, form.Values{"op": {last}})
	assert.Equal(t, 5, v.current1(id).Made(count.Key))
	act("count", count.Key, form.Values{"n": {"9"}})
	assert.Equal(t, 9, v.current1(id).Made(count.Key))
	helper.visit("/jobs/" + id + "/history?e=" + count.Key)
	assert.Contains(t, helper.text(), "Ines")

	line := p.Pack[0].Lines[0]
	act("pack", line.Key, nil)
	assert.Equal(t, line.Need, v.current1(id).Packed(line.Key), "Packed must pack all of it")
	helper.submit("#flash form", nil)
	assert.Equal(t, 0, v.current1(id).Packed(line.Key))
	act("pack", line.Key, form.Values{"n": {"3"}})
	act("unpack", line.Key, nil)
	assert.Equal(t, 0, v.current1(id).Packed(line.Key))

	act("take", tick.Key, form.Values{"text": {"Ines"}})
	assert.Equal(t, "Ines", v.current1(id).TakenBy(tick.Key))
}

func TestBadActionsAreRefused(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	cards := plan.Make(v.current()).Cards
	count := cards[slices.IndexFunc(cards, func(c task.Card) bool { return c.Count > 0 })]
	tick := cards[slices.IndexFunc(cards, func(c task.Card) bool { return c.Count == 0 })]
	helper := w.visitor(job.Helper, "Ines")
	back := "/jobs/" + id + "/cards"
	for name, values := range map[string]form.Values{
		"an unknown act":    {"act": {"explode"}},
		"not a number":      {"act": {"add"}, "e": {count.Key}, "n": {"many"}},
		"nothing to add":    {"act": {"add"}, "e": {count.Key}},
		"a negative count":  {"act": {"count"}, "e": {count.Key}, "n": {"-1"}},
		"a million million": {"act": {"count"}, "e": {count.Key}, "n": {"1e12"}},
		"half":              {"act": {"add"}, "e": {count.Key}, "n": {"0.5"}},
		"not on a list":     {"act": {"tick"}, "e": {"brief"}},
		"no list at all":    {"act": {"tick"}},
		"undo of nothing":   {"act": {"undo"}, "e": {count.Key}, "op": {"<script>"}},
		"name too long":     {"act": {"take"}, "e": {tick.Key}, "text": {strings.Repeat("x", 61)}},
	} {
		t.Run(name, func(t *testing.T) {
			values["back"] = []string{back}
			seq := w.seq
			helper.post("/jobs/"+id+"/do", values)
			assert.Equal(t, 422, helper.reply.Status)
			assert.Equal(t, seq, w.seq)
			assert.Equal(t, 1, helper.doc.Find("#alert").Length(), "the same page must show the error")
		})
	}
}

func (v *visitor) current1(id string) job.Job {
	j, known := v.read(id)
	require.True(v.t, known)
	return j
}

func TestPostsRedirectOnlyIntoTheApp(t *testing.T) {
	w := newWorld(t)
	w.load("demo", "reading-room.json")
	v := w.visitor(job.Owner, "Dora")
	for _, back := range []string{"https://example.org/", "//example.org", "/\\example.org", "javascript:alert(1)",
		"/jobs/demo/nowhere", "\t/jobs/demo", "/jobs/demo\r\nSet-Cookie: a=b", "", "/jobs/demo/do"} {
		reply := pagePost(v, "/jobs/demo/do", form.Values{"act": {"tick"}, "e": {"card/load"}, "back": {back}})
		assert.Equal(t, "/jobs/demo", reply.Redirect, "%q", back)
	}
	reply := pagePost(v, "/jobs/demo/do",
		form.Values{"act": {"tick"}, "e": {"card/load"}, "back": {"/jobs/demo/cards?show=mine"}})
	assert.Equal(t, "/jobs/demo/cards?show=mine", reply.Redirect)
}

func TestExportImportGivesTheSameJob(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	v.visit("/jobs/"+id+"/brief").
		submit("#edit-brief", form.Values{"contact.name": {"The librarian"}, "venue": {"Mill Street <&>"}})
	key := plan.Make(v.current1(id)).Cards[0].Key
	v.post("/jobs/"+id+"/do", form.Values{"act": {"tick"}, "e": {key}})
	v.visit("/jobs/" + id + "/export")
	require.NotNil(t, v.reply.File)
	assert.Equal(t, "application/json", v.reply.File.Mime)
	assert.Equal(t, "reading-room-reopening.job.json", v.reply.File.Name)
	data := string(v.reply.File.Data)
	assert.Contains(t, data, "The librarian")

	for _, by := range []string{"text", "file"} {
		v.visit("/import").submit("#import", form.Values{by: {data}})
		require.Equal(t, 200, v.reply.Status, v.text())
		again, err := job.EncodeFile(v.current())
		require.NoError(t, err)
		assert.Equal(t, data, string(again), "the imported job must be the same")
		assert.NotEqual(t, id, v.current().ID)
	}
	assert.Len(t, w.jobs, 3)
}

func TestImportNamesTheErrorAndKeepsTheText(t *testing.T) {
	v := newWorld(t).visitor(job.Owner, "Dora")
	for name, c := range map[string]struct{ text, want string }{
		"nothing":      {"", "paste its text"},
		"truncated":    {`{"garlandry":1,"brief":{"title":"Reading`, "not a JSON job file"},
		"not a job":    {`[1,2,3]`, "not a JSON job file"},
		"no version":   {`{"brief":{}}`, `"garlandry": 1`},
		"newer":        {`{"garlandry":99}`, "newer version"},
		"unknown part": {`{"garlandry":1,"secrets":1}`, "not part of a job file"},
		"empty recipe": {`{"garlandry":1,"brief":{"title":"a"},"pieces":[{"name":"x","kind":"garland",` +
			`"recipe":"99x11"}]}`, "1 to 8"},
		"unknown size": {`{"garlandry":1,"brief":{"title":"a"},"colours":[{"name":"Coral","sizes":[13]}]}`, "13-inch"},
		"colour no sizes": {`{"garlandry":1,"brief":{"title":"a"},"colours":[{"name":"Coral","sizes":[]}]}`,
			"at least one size"},
		"10 km": {`{"garlandry":1,"brief":{"title":"a"},"pieces":[{"name":"x","kind":"garland",` +
			`"length_mm":10000000}]}`, "500000"},
		"doors before in": {`{"garlandry":1,"brief":{"title":"a","in":"2027-05-08T11:00","doors":"2027-05-08T08:00"}}`,
			"after your access begins"},
		"not an object": {`[]`, "a job file is one object"},
		"too large a wall": {`{"garlandry":1,"brief":{"title":"a"},` +
			`"colours":[{"id":"c","name":"Coral","sizes":[5]}],` +
			`"pieces":[{"name":"Sky","kind":"wall","width_mm":100000,"height_mm":50000,` +
			`"recipe":"2x5@4"}]}`, "up to 20000 clusters"},
		"letters as digits": {`{"garlandry":1,"brief":{"title":"a"},` +
			`"pieces":[{"name":"x","kind":"numbers","digits":"4-0"}]}`,
			"digits from 0 to 9"},
		"empty job": {`{"garlandry":1}`, "no job in the file"},
		"deep":      {strings.Repeat("[", 20000), "not a JSON job file"},
		"markup":    {`{"garlandry":1,"<script>":1}`, "not part of a job file"},
		"unknown reference": {`{"garlandry":1,"brief":{"title":"a"},` +
			`"pieces":[{"name":"x","kind":"garland",` +
			`"colours":[{"colour":"nope","weight":1}]}]}`, "nope"},
	} {
		t.Run(name, func(t *testing.T) {
			v.visit("/import").submit("#import", form.Values{"text": {c.text}})
			assert.Equal(t, 422, v.reply.Status)
			assert.Contains(t, v.doc.Find("#f-text-error").Text(), c.want)
			assert.Equal(t, c.text, standing(v.doc.Find("#import")).Get("text"))
			assert.Empty(t, v.jobs)
		})
	}
}

func TestCopyArchiveRestore(t *testing.T) {
	w := newWorld(t)
	w.load("demo", "reading-room.json")
	v := w.visitor(job.Owner, "Dora")
	v.post("/jobs/demo/do", form.Values{"act": {"tick"}, "e": {"card/load"}})
	v.visit("/jobs/demo").submit(`form[action="/jobs/demo/copy"]`, nil)
	j, original := v.current(), v.current1("demo")
	assert.Equal(t, "Reading room reopening (copy)", j.Brief.Title)
	assert.Empty(t, j.Brief.Doors)
	assert.Empty(t, j.Contact.Name, "a copy must not have the client")
	assert.Equal(t, len(original.Pieces), len(j.Pieces))
	assert.Equal(t, plan.Design(original).Balloons, plan.Design(j).Balloons, "the counts must be the same")
	assert.False(t, j.Done("card/load"))

	v.visit("/jobs/demo").submit(`form[action="/jobs/demo/away"]`, nil)
	assert.Equal(t, "/", v.at)
	assert.Equal(t, 0, v.doc.Find(`a[href="/jobs/demo"]`).Length())
	v.visit("/away").submit(`form[action="/jobs/demo/back"]`, nil)
	assert.Equal(t, "/jobs/demo", v.at)
	v.visit("/")
	assert.Equal(t, 1, v.doc.Find(`a[href="/jobs/demo"]`).Length())
}

func TestTimesOfANewJobAreOnItsDate(t *testing.T) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/new")
	require.Equal(t, 2, v.doc.Find("#new-job input[type=time]").Length())
	v.submit("#new-job", form.Values{"title": {"Reading room"}, "date": {""}, "in": {"08:30"},
		"doors": {"11:00"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Contains(t, v.doc.Find(".wronglist a[href='#f-date']").Text(), "Add the date")
	assert.Equal(t, "08:30", v.doc.Find("#new-job [name=in]").AttrOr("value", ""), "the typed text must stay")
	v.submit("#new-job", form.Values{"date": {"2027-05-08"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	assert.Equal(t, job.Moment("2027-05-08T08:30"), v.current().Brief.In)
	assert.Equal(t, job.Moment("2027-05-08T11:00"), v.current().Brief.Doors)

	v.visit("/new").
		submit("#new-job", form.Values{"title": {"Backwards"}, "date": {"2027-05-08"}, "in": {"12:00"}, "doors": {"08:30"}})
	assert.Equal(t, 422, v.reply.Status)
	assert.Equal(t, "12:00", v.doc.Find("#new-job [name=in]").AttrOr("value", ""))
}
