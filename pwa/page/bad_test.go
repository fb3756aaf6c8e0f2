package page_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
)

// badInputs lists posts that a form must refuse, with the input that shows the message.
var badInputs = []struct {
	name, page, form string
	set              form.Values
	field            string // input with the message
	want             string
}{
	{"negative length", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"length_mm": {"-3 m"}}, "length_mm",
		"4 in to 1640 ft 5 in"},
	{"10 km garland", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"length_mm": {"10 km"}}, "length_mm",
		"4 in to 1640 ft 5 in"},
	{"length left empty", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"length_mm": {" "}}, "length_mm",
		"4 in to 1640 ft 5 in"},
	{"words for a length", "/jobs/demo/pieces/door", "#edit-piece", form.Values{"width_mm": {"rather wide"}}, "width_mm",
		"rather wide"},
	{"empty recipe", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"recipe": {""}}, "recipe", "2x11@10 + 1x18@16"},
	{"recipe of no balloons", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"recipe": {"0x11@10"}}, "recipe",
		"whole number from 1"},
	{"unknown size in a recipe", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"recipe": {"3x13@12"}}, "recipe",
		"5, 9, 10, 11, 12, 16, 18, 24, 36"},
	{"more than can be twisted", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"recipe": {"40x11@10"}}, "recipe",
		"1 to 8"},
	{"a million accents", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"accents": {"1000000"}}, "accents",
		"0 to 2000"},
	{"a wall of a million clusters", "/jobs/demo/pieces/shelfwall", "#edit-piece",
		form.Values{"width_mm": {"100 m"}, "height_mm": {"50 m"}, "recipe": {"1x5@4"}}, "width_mm", "up to 20000 clusters"},
	{"a wall of 100 by 50 metres names what is too large", "/jobs/demo/pieces/shelfwall", "#edit-piece",
		form.Values{"width_mm": {"100 m"}, "height_mm": {"50 m"}, "recipe": {"2x5@4"}}, "width_mm",
		"width may be 4 in to 328 ft 1 in; height may be 4 in to 164 ft"},
	{"letters for digits", "/jobs/demo/pieces/year", "#edit-piece", form.Values{"digits": {"abc"}}, "digits",
		"digits from 0 to 9"},
	{"a dash among digits", "/jobs/demo/pieces/year", "#edit-piece", form.Values{"digits": {"4-0"}}, "digits",
		"digits from 0 to 9"},
	{"money for digits", "/jobs/demo/pieces/year", "#edit-piece", form.Values{"digits": {"€5"}}, "digits",
		"digits from 0 to 9"},
	{"a million bouquets", "/jobs/demo/pieces/float", "#edit-piece", form.Values{"count": {"1000000"}}, "count",
		"1 to 500"},
	{"an unknown size", "/jobs/demo/pieces/float", "#edit-piece", form.Values{"size_in": {"13"}}, "size_in",
		"13-inch"},
	{"larger than the balloon", "/jobs/demo/pieces/float", "#edit-piece", form.Values{"to_in": {"20"}}, "to_in", "11 in"},
	{"an unknown colour", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"colours.nope": {"1"}}, "colours",
		"no longer in the palette"},
	{"a negative share of a colour", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"colours.ink": {"-1"}},
		"colours.ink", "0 to 1000"},
	{"an unknown frame", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"frame": {"nope"}}, "frame", "kit"},
	{"a piece without a name", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"name": {"  "}}, "name", "needed"},
	{"a name that is too long", "/jobs/demo/pieces/desk", "#edit-piece", form.Values{"name": {strings.Repeat("🎈", 81)}},
		"name", "up to 80"},
	{"half a balloon", "/jobs/demo/pieces/corner", "#edit-piece", form.Values{"counts.0.count": {"2.5"}},
		"counts.0.count", "0 to 10000"},
	{"a new piece of 10 km", "/jobs/demo/pieces/new?kind=garland", "#edit-piece",
		form.Values{"length_mm": {"10 km"}, "name": {"Long"}}, "length_mm", "4 in to 1640 ft 5 in"},
	{"colour without sizes", "/jobs/demo/colours", `[id="form-coral"]`, form.Values{"coral.sizes": nil}, "coral.sizes",
		"at least one"},
	{"colour of an unknown size", "/jobs/demo/colours", `[id="form-coral"]`, form.Values{"coral.sizes": {"13"}},
		"coral.sizes", "5, 9, 10, 11"},
	{"colour without a name", "/jobs/demo/colours", "#form-add", form.Values{"new.name": {""}}, "new.name", "needed"},
	{"colour value in words", "/jobs/demo/colours", `[id="form-coral"]`, form.Values{"coral.value": {"red"}},
		"coral.value", "#e5604d"},
	{"doors before in", "/jobs/demo/brief", "#edit-brief", form.Values{"doors": {"2027-05-08T06:00"}}, "doors",
		"after your access begins"},
	{"down before doors", "/jobs/demo/brief", "#edit-brief", form.Values{"down": {"2027-05-08T10:00"}}, "down",
		"after the doors"},
	{"a date of another century", "/jobs/demo/brief", "#edit-brief", form.Values{"date": {"1827-05-08"}}, "date",
		"2000 to 2100"},
	{"too hot", "/jobs/demo/brief", "#edit-brief", form.Values{"venue_c": {"500 F"}}, "venue_c", "-4 °F to 140 °F"},
	{"a job without a title", "/jobs/demo/brief", "#edit-brief", form.Values{"title": {""}}, "title", "needed"},
	{"notes that are too long", "/jobs/demo/brief", "#edit-brief", form.Values{"notes": {strings.Repeat("x", 5000)}},
		"notes", "up to 4000"},
	{"a client's long name", "/jobs/demo/brief", "#edit-brief", form.Values{"contact.name": {strings.Repeat("x",
		5000)}},
		"contact.name", "up to 120"},
	{"crew that leaves before they come", "/jobs/demo/crew", `[id="form-bea"]`,
		form.Values{"bea.to": {"2027-05-08T08:00"}}, "bea.to", "after"},
	{"a frame of negative width", "/jobs/demo/kit", `[id="form-stand"]`, form.Values{"stand.width_mm": {"-1 m"}},
		"stand.width_mm", "0 in to 65 ft 7"},
	{"an own line without a text", "/jobs/demo/added?list=pack", "#form-add", form.Values{"new.text": {""}}, "new.text",
		"needed"},
	{"an own line a thousand million times", "/jobs/demo/added?list=pack", "#form-add",
		form.Values{"new.text": {"Cake"}, "new.count": {"1e9"}}, "new.count", "1 to 10000"},
	{"a card with too many people", "/jobs/demo/change/card/load", "#edit-card", form.Values{"hands": {"400"}}, "hands",
		"1 to 20"},
	{"words for minutes", "/jobs/demo/change/card/load", "#edit-card", form.Values{"minutes": {"soon"}}, "minutes",
		"0 to 1440"},
}

// TestBadInput checks that every bad input gets a 422 with the allowed range at its field, that the typed text stays,
// and that nothing is written.
func TestBadInput(t *testing.T) {
	w := demo(t)
	for _, c := range badInputs {
		t.Run(c.name, func(t *testing.T) {
			v := w.visitor(job.Owner, "Dora")
			v.visit(c.page)
			assert.Equal(t, 200, v.reply.Status)
			seq := w.seq
			before := standing(v.doc.Find(c.form))
			v.submit(c.form, c.set)
			assert.Equal(t, 422, v.reply.Status)
			assert.Equal(t, seq, w.seq, "nothing may be written")
			wrong := v.doc.Find("#" + domID(c.field) + "-error")
			assert.Equal(t, 1, wrong.Length(), "the message must be at %s", c.field)
			assert.Contains(t, wrong.Text(), c.want)
			after := standing(v.doc.Find(c.form))
			for name, list := range before {
				if typed, changed := c.set[name]; changed {
					list = typed
				}
				if _, edited := c.set["recipe"]; edited && strings.HasPrefix(name, "recipe.") {
					continue // the builder follows the text
				}
				if _, offered := after[name]; !offered && strings.HasSuffix(name, "sizes") {
					continue // no box of that size to tick
				}
				assert.Equal(t, list, after[name], "the value of %s must be kept", name)
			}
		})
	}
}

// domID returns the id of a field's input in a page.
func domID(name string) string {
	return "f-" + strings.NewReplacer("_", "_5f", ".", "_2e").Replace(name)
}

// TestMarkupIsOnlyText checks that markup typed into pages comes back as text.
func TestMarkupIsOnlyText(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	hostile := `"><script>alert(1)</script>'&amp;🎈` + "\u202e"
	v.visit("/jobs/demo/pieces/desk").submit("#edit-piece", form.Values{"name": {hostile}, "notes": {hostile}})
	v.visit("/jobs/demo/brief").
		submit("#edit-brief", form.Values{"title": {hostile}, "venue": {hostile}, "contact.name": {hostile}})
	v.visit("/jobs/demo/colours").submit("#form-add", form.Values{"new.name": {hostile[:20]}, "new.sizes": {"5"}})
	v.visit("/jobs/demo/crew").submit("#form-add", form.Values{"new.name": {hostile}})
	v.visit("/jobs/demo/kit?kind=frame").submit("#form-add", form.Values{"new.name": {hostile}})
	v.visit("/jobs/demo/added?list=pack").submit("#form-add", form.Values{"new.text": {hostile}})
	assert.Equal(t, hostile, v.current().Pieces[1].Name)
	for _, address := range []string{"/", "/jobs/demo", "/jobs/demo/brief", "/jobs/demo/pieces",
		"/jobs/demo/pieces/desk", "/jobs/demo/colours", "/jobs/demo/crew", "/jobs/demo/kit", "/jobs/demo/added",
		"/jobs/demo/counts", "/jobs/demo/pack", "/jobs/demo/cards", "/jobs/demo/history"} {
		v.visit(address)
		assert.Equal(t, 200, v.reply.Status, address)
		assert.Equal(t, 0, v.doc.Find("#page script").Length(), address)
		assert.Equal(t, 0, v.doc.Find("#top script").Length(), address)
	}
}
