package form_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func noun(t testing.TB, entity string) *job.Noun {
	n, known := job.FindNoun(entity)
	require.True(t, known, entity)
	return n
}

func TestEntityReadsWhatPeopleWrite(t *testing.T) {
	cases := []struct {
		name, entity, field, typed string
		units                      measure.System
		want                       string // JSON
	}{
		{"feet and inches with primes", "piece/a", "length_mm", `10'6"`, measure.Metric, "3200.4"},
		{"decimal comma", "piece/a", "length_mm", "3,2 m", measure.Imperial, "3200"},
		{"a bare number is metres", "piece/a", "length_mm", "3.2", measure.Metric, "3200"},
		{"a bare number is feet", "piece/a", "length_mm", "10", measure.Imperial, "3048"},
		{"below the sea", "brief", "altitude_mm", "-20 m", measure.Metric, "-20000"},
		{"Fahrenheit", "brief", "prep_c", "68F", measure.Metric, "20"},
		{"a bare temperature by units", "brief", "prep_c", "68", measure.Imperial, "20"},
		{"kilograms", "kit/a", "weight_g", "1.55 kg", measure.Imperial, "1550"},
		{"a bare weight is kilograms", "kit/a", "test_weight_g", "1,5", measure.Metric, "1500"},
		{"a bare weight is pounds", "kit/a", "weight_g", "2", measure.Imperial, "907.185"},
		{"a dip in millimetres", "kit/a", "test_dip_mm", "18mm", measure.Imperial, "18"},
		{"date input", "brief", "date", "2027-05-08", measure.Metric, `"2027-05-08"`},
		{"datetime-local input", "brief", "in", "2027-05-08T08:30", measure.Metric, `"2027-05-08T08:30"`},
		{"datetime-local with seconds", "brief", "in", "2027-05-08T08:30:00", measure.Metric, `"2027-05-08T08:30"`},
		{"a blank for the T", "brief", "in", "2027-05-08 08:30", measure.Metric, `"2027-05-08T08:30"`},
		{"a recipe in its one form", "piece/a", "recipe", "1x18@16+2 x 11@10", measure.Metric, `"2x11@10 + 1x18@16"`},
		{"a recipe by size alone", "piece/a", "recipe", "3x11", measure.Metric, `"3x11@10"`},
		{"a colour in capitals", "colour/a", "value", "#E5604D", measure.Metric, `"#e5604d"`},
		{"percent sign", "piece/a", "part_pct", "60 %", measure.Metric, "60"},
		{"grouped thousands", "piece/a", "accents", "1,200", measure.Metric, "1200"},
		{"emptied", "piece/a", "accents", "  ", measure.Metric, "null"},
		{"markup and emoji are only text", "piece/a", "name", "<b>Door</b> 🎈 & \"arch\"", measure.Metric,
			`"\u003cb\u003eDoor\u003c/b\u003e 🎈 \u0026 \"arch\""`},
		{"control characters go, lines become blanks", "piece/a", "name", "Door\x00\x07\ngarland ", measure.Metric,
			`"Door garland"`},
		{"long text keeps its lines", "piece/a", "notes", "one\r\ntwo", measure.Metric, `"one\ntwo"`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			changes, state := form.Entity(noun(t, c.entity), c.entity, []string{c.field}, form.Values{c.field: {c.typed}},
				c.units)
			require.True(t, state.OK(), "%v", state.Errors)
			require.Len(t, changes, 1)
			assert.Equal(t, c.want, string(changes[0].Value))
			assert.Equal(t, c.typed, state.Get(c.field), "the text must stay as typed")
		})
	}
}

func TestEntityNamesTheAllowedRange(t *testing.T) {
	cases := []struct {
		name, entity, field, typed string
		units                      measure.System
		want                       []string
	}{
		{"negative length", "piece/a", "length_mm", "-3 m", measure.Metric, []string{"0.1 m to 500 m"}},
		{"words for a length, with an example that is allowed", "piece/a", "length_mm", "far", measure.Metric,
			[]string{"3.2 m or 320 cm;"}},
		{"10 km garland", "piece/a", "length_mm", "10 km", measure.Metric, []string{"0.1 m to 500 m"}},
		{"10 km in feet", "piece/a", "length_mm", "10 km", measure.Imperial, []string{"4 in to 1640 ft 5 in"}},
		{"not a length", "piece/a", "length_mm", "long", measure.Metric, []string{"long", "0.1 m to 500 m"}},
		{"empty recipe", "piece/a", "recipe", "", measure.Metric, []string{"Recipe: empty recipe", "2x11@10 + 1x18@16"}},
		{"unknown size in a recipe", "piece/a", "recipe", "3x13@12", measure.Metric, []string{"13", "5, 9, 10, 11"}},
		{"too many duplets", "piece/a", "recipe", "99x11@10", measure.Metric, []string{"1 to 8"}},
		{"a million clusters", "piece/a", "accents", "1000000", measure.Metric, []string{"0 to 2000"}},
		{"half a cluster", "piece/a", "accents", "2.5", measure.Metric, []string{"0 to 2000"}},
		{"minus one cluster does not mean the default", "piece/a", "accents", "-1", measure.Metric,
			[]string{"0 to 2000"}},
		{"no name", "piece/a", "name", " ", measure.Metric, []string{"Name is needed"}},
		{"name too long", "piece/a", "name", strings.Repeat("é", 81), measure.Metric, []string{"up to 80", "81"}},
		{"not a kind", "piece/a", "kind", "cannon", measure.Metric, []string{"garland"}},
		{"a day that does not exist", "brief", "date", "2027-02-30", measure.Metric, []string{"2027-05-08"}},
		{"a time of another century", "brief", "doors", "1999-01-01T10:00", measure.Metric, []string{"2000 to 2100"}},
		{"hot", "brief", "venue_c", "90", measure.Metric, []string{"-20 °C to 60 °C"}},
		{"hot in Fahrenheit", "brief", "venue_c", "190", measure.Imperial, []string{"-4 °F to 140 °F"}},
		{"colour not hex", "colour/a", "value", "red", measure.Metric, []string{"#e5604d"}},
		{"unknown size", "colour/a", "sizes", "13", measure.Metric, []string{"13", "5, 9, 10, 11"}},
		{"not a number", "kit/a", "litres", "NaN", measure.Metric, []string{"0 to 50000"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := form.Needed(noun(t, c.entity), "recipe")
			changes, state := form.Entity(n, c.entity, []string{c.field}, form.Values{c.field: {c.typed}}, c.units)
			assert.Nil(t, changes)
			require.Contains(t, state.Errors, c.field)
			for _, want := range c.want {
				assert.Contains(t, state.Errors[c.field], want)
			}
			assert.Equal(t, c.typed, state.Get(c.field), "the text must stay as typed")
		})
	}
}

// TestSpansAreTypedAsPairs checks the pairs of times: empty pairs are ignored, and half a pair is an error.
func TestSpansAreTypedAsPairs(t *testing.T) {
	n := noun(t, "member/a")
	j := job.Preview(
		[]job.Change{job.Put("member/a", "name", "Bea"),
			job.Put("member/a", "again", []job.Span{{From: "2027-05-08T18:00", To: "2027-05-08T20:00"}})},
	)
	filled := form.Fill(n, j.State, "member/a", []string{"again"}, measure.Metric)
	assert.Equal(t, []string{"2027-05-08T18:00", "2027-05-08T20:00"}, filled.Values["again"])
	for _, row := range []struct {
		name  string
		typed []string
		want  string // JSON; "" for no change
		wrong string
	}{
		{"unchanged, with an empty pair below", []string{"2027-05-08T18:00", "2027-05-08T20:00", "", ""}, "", ""},
		{"one more", []string{"2027-05-08T18:00", "2027-05-08T20:00", "2027-05-06T19:00", "2027-05-06 21:00:00"},
			`[{"from":"2027-05-08T18:00","to":"2027-05-08T20:00"},{"from":"2027-05-06T19:00","to":"2027-05-06T21:00"}]`, ""},
		{"the first emptied", []string{"", "", "2027-05-06T19:00", "2027-05-06T21:00"},
			`[{"from":"2027-05-06T19:00","to":"2027-05-06T21:00"}]`, ""},
		{"all emptied", []string{"", "", "", ""}, `[]`, ""},
		{"no end", []string{"2027-05-08T18:00", ""}, "", "a beginning, and an end after it"},
		{"backwards", []string{"2027-05-08T20:00", "2027-05-08T18:00"}, "", "a beginning, and an end after it"},
		{"nonsense", []string{"tea time", "2027-05-08T18:00"}, "", "a beginning, and an end after it"},
	} {
		t.Run(row.name, func(t *testing.T) {
			typed := filled.Values.Clone()
			typed["again"] = row.typed
			changes, state := form.Entity(n, "member/a", []string{"again"}, typed, measure.Metric)
			assert.Equal(t, row.typed, state.Values["again"], "the text must stay as typed")
			if row.wrong != "" {
				assert.Contains(t, state.Errors["again"], row.wrong)
				return
			}
			require.True(t, state.OK(), "%v", state.Errors)
			if row.want == "" {
				assert.Empty(t, changes)
				return
			}
			require.Len(t, changes, 1)
			assert.Equal(t, row.want, string(changes[0].Value))
		})
	}
	changes, _ := form.Entity(n, "member/a", []string{"again"}, form.Values{}, measure.Metric)
	assert.Empty(t, changes, "a form without the field must not change it")
}

// TestRangeLimitsAreAllowed checks that the limits that an error names can be typed.
func TestRangeLimitsAreAllowed(t *testing.T) {
	for _, n := range job.Nouns() {
		entity := n.Name
		if !n.Single {
			entity += "/a"
		}
		for _, f := range n.Fields {
			for _, units := range []measure.System{measure.Metric, measure.Imperial} {
				low, high, ranged := strings.Cut(form.Range(&f, units), " to ")
				if !ranged {
					continue
				}
				for _, typed := range []string{low, high} {
					_, state := form.Entity(&n, entity, []string{f.Name}, form.Values{f.Name: {typed}}, units)
					assert.True(t, state.OK(), "%s.%s %s %q: %v", n.Name, f.Name, units, typed, state.Errors)
				}
			}
		}
	}
}

func TestOnlyChangedFieldsAreWritten(t *testing.T) {
	n := noun(t, "piece/door")
	j := job.Preview([]job.Change{
		job.Put(
			"piece/door",
			"name",
			"Door garland",
		), job.Put("piece/door", "kind", "garland"), job.Put("piece/door", "length_mm", 3217.0),
		job.Put("piece/door", "colours", []job.Share{{Colour: "coral", Weight: 2}}),
		job.Put("piece/door", "counts", []job.TypedCount{{SizeIn: 11, Colour: "coral", Count: 24}}),
	})
	fields := []string{"name", "kind", "length_mm", "recipe", "colours", "counts", "accents", "notes"}
	filled := form.Fill(n, j.State, "piece/door", fields, measure.Imperial)
	assert.Equal(t, "10 ft 6.5 in", filled.Get("length_mm"))
	assert.Equal(t, "3x11@10", filled.Get("recipe"), "defaults must show")
	assert.Empty(t, filled.Get("accents"), "the default is an empty field")

	filled.Values.Set("colours.sand", "") // the page draws every colour of the palette and two empty rows
	filled.Values.Set("counts.1.count", "")
	filled.Values.Set("counts.1.size", "11")
	filled.Values.Set("counts.1.colour", "coral")
	changes, state := form.Entity(n, "piece/door", fields, filled.Values, measure.Imperial)
	require.True(t, state.OK(), "%v", state.Errors)
	assert.Empty(t, changes, "an unchanged form must change nothing, not even by rounding")

	v := filled.Values.Clone()
	v.Set("name", "Main door")
	v.Set("colours.sand", "1")
	v.Set("counts.0.count", "30")
	changes, state = form.Entity(n, "piece/door", fields, v, measure.Imperial)
	require.True(t, state.OK(), "%v", state.Errors)
	require.Len(t, changes, 3)
	after := job.Try(j, changes).Pieces[0]
	assert.Equal(t, "Main door", after.Name)
	assert.Equal(t, 3217.0, after.LengthMM)
	assert.Equal(t, []job.Share{{Colour: "coral", Weight: 2}, {Colour: "sand", Weight: 1}}, after.Colours)
	assert.Equal(t, 30, after.Counts[0].Count)
	assert.Equal(t, "Door garland", j.Pieces[0].Name, "a preview must not change the job")
}

func TestBoxesAndRows(t *testing.T) {
	colour := noun(t, "colour/a")
	changes, state := form.Entity(colour, "colour/a", []string{"sizes"}, form.Values{"sizes": {"18", "5"}}, measure.Metric)
	require.True(t, state.OK())
	assert.JSONEq(t, "[5,18]", string(changes[0].Value))

	_, state = form.Entity(colour, "colour/a", []string{"sizes"}, form.Values{}, measure.Metric)
	assert.Contains(t, state.Errors["sizes"], "at least one", "a colour without sizes")

	member := noun(t, "member/a")
	changes, _ = form.Entity(member, "member/a", []string{"home"}, form.Values{"was.home": {"1"}}, measure.Metric)
	require.Len(t, changes, 1, "an unticked box must be a change")
	assert.Equal(t, "false", string(changes[0].Value))

	piece := noun(t, "piece/a")
	_, state = form.Entity(piece, "piece/a", []string{"counts"},
		form.Values{"counts.3.count": {"4"}, "counts.3.size": {"13"}, "counts.3.colour": {"coral"}}, measure.Metric)
	assert.Contains(t, state.Errors, "counts.3.size")
	_, state = form.Entity(piece, "piece/a", []string{"colours"}, form.Values{"colours.coral": {"-1"}}, measure.Metric)
	assert.Contains(t, state.Errors["colours.coral"], "0 to 1000")
}

func TestTogether(t *testing.T) {
	j := job.Preview(
		[]job.Change{job.Put("brief", "title", "Reading room reopening"), job.Put("brief", "in", "2027-05-08T08:00")},
	)
	fields := []string{"in", "doors"}
	changes, state := form.Entity(noun(t, "brief"), "brief", fields, form.Values{"doors": {"2027-05-08T07:00"}},
		measure.Metric)
	require.True(t, state.OK())
	state = state.Together(job.Try(j, changes).Brief.CheckTogether(), fields)
	assert.Contains(t, state.Errors["doors"], "after your access begins")
}

func TestWithinRemovesThePrefix(t *testing.T) {
	v := form.Values{"name": {"a"}, "was.name": {"b"}, "sizes": {"5", "11"}}
	assert.Equal(t, v, v.Prefixed("x7.").Within("x7."))
	assert.Equal(t, "b", v.Prefixed("x7.").Get("was.x7.name"), "as the form draws its fields")
}

func FuzzEntity(f *testing.F) {
	for _, typed := range []string{"", "10'6\"", "3,2 m", "-3", "1e999", "2x11@10 + 1x18@16", "2027-05-08T08:30",
		"68F", "<b>", "\xff\x00", "#e5604d", "11", "999999999999999999999"} {
		f.Add(typed, "1", true)
	}
	f.Fuzz(func(t *testing.T, typed, second string, imperial bool) {
		units := measure.Metric
		if imperial {
			units = measure.Imperial
		}
		for _, n := range job.Nouns() {
			entity, names, v := n.Name, []string{}, form.Values{}
			if !n.Single {
				entity += "/a"
			}
			for _, field := range n.Fields {
				names = append(names, field.Name)
				v[field.Name] = []string{typed, second}
				v[field.Name+"."+second] = []string{typed}
				v[form.Row(field.Name, 0, form.RowSize)] = []string{second}
				v[form.Row(field.Name, 0, form.RowCount)] = []string{typed}
				v[form.Row(field.Name, 0, form.RowColour)] = []string{second}
			}
			for _, name := range names { // one at a time, so that one bad field does not hide the others
				changes, state := form.Entity(&n, entity, []string{name}, v, units)
				several := len(changes) == 0 && state.OK() &&
					(name == "counts" || strings.HasSuffix(name, "colours")) // every part may be empty
				if state.OK() == (len(changes) == 0) && !several {
					t.Fatalf("%s.%s %q: %d changes with errors %v", n.Name, name, typed, len(changes), state.Errors)
				}
				for _, c := range changes {
					if err := job.CheckChange(c); err != nil {
						t.Fatalf("%s.%s %q gave an invalid change: %v", n.Name, name, typed, err)
					}
					again := form.Fill(&n, job.Try(job.Preview(nil), changes).State, entity, []string{name}, units)
					if more, _ := form.Entity(&n, entity, []string{name}, again.Values, units); len(more) > 0 {
						t.Fatalf("%s.%s %q: an unchanged form changes it", n.Name, name, typed)
					}
				}
			}
		}
	})
}
