package page_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEverySuccessCanBeUndone submits each form that changes a job, and undoes it from the toast of the page after it.
func TestEverySuccessCanBeUndone(t *testing.T) {
	for _, row := range []struct {
		name, page, form string
		typed            form.Values
		act              []string
	}{
		{"brief, with the client", "/jobs/demo/brief", "form[data-core]",
			form.Values{"title": {"Another title"}, "contact.name": {"Pia"}}, nil},
		{"a piece is changed", "/jobs/demo/pieces/door", "#edit-piece", form.Values{"name": {"Side door"}}, nil},
		{"a piece moves", "/jobs/demo/pieces", `[id="down-door"]`, nil, nil},
		{"a colour is changed", "/jobs/demo/colours", `[id="form-coral"]`, form.Values{"coral.sizes": {"5"}}, nil},
		{"a colour is added", "/jobs/demo/colours", `[id="start-plum"]`, nil, nil},
		{"a colour moves", "/jobs/demo/colours", `[id="down-coral"]`, nil, nil},
		{"a helper is added", "/jobs/demo/crew", "#form-add", form.Values{"new.name": {"Bruno"}}, nil},
		{"a helper is changed", "/jobs/demo/crew", `[id="form-bea"]`, form.Values{"bea.name": {"Beate"}}, nil},
		{"kit is added", "/jobs/demo/kit?kind=frame", "#form-add",
			form.Values{"new.name": {"Round arch"}, "new.width_mm": {"2.4 m"}}, nil},
		{"a line is added", "/jobs/demo/added?list=site", "#form-add", form.Values{"new.text": {"Sweep"}}, nil},
		{"a note", "/jobs/demo/cards/make/door", "form:has(#note-text)", form.Values{"text": {"Start at the foot"}}, nil},
		{"all done", "/jobs/demo/cards/make/door", `.tallyone form:has(input[value="count"])`, nil, nil},
		{"a count", "/jobs/demo/cards/make/door", ".tally form.inline", form.Values{"n": {"3"}}, nil},
		{"prices of bags", "/jobs/demo/shop", "#shop",
			form.Values{view.BagsInput("latex/11"): {"100 for 9.90; 50 for 5.60"}}, nil},
		{"the job is archived", "/jobs/demo", `form[action="/jobs/demo/away"]`, nil, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := demo(t)
			v := w.visitor(job.Owner, "Dora").visit(row.page)
			before := whole(v.current1("demo"))
			v.submit(row.form, row.typed, row.act...)
			require.Equal(t, 200, v.reply.Status, v.text())
			require.NotEqual(t, before, whole(v.current1("demo")), "the form must change something")
			require.Equal(t, 1, v.doc.Find("#flash form").Length(), "%s: %s", v.at, v.doc.Find("#flash").Text())
			v.submit("#flash form", nil)
			require.Equal(t, 200, v.reply.Status, v.text())
			assert.Equal(t, before, whole(v.current1("demo")))
		})
	}
}

// whole writes out what forms can change of a job.
func whole(j job.Job) string {
	made := map[string]int{}
	for key := range j.State.Tallies {
		if n := j.Made(key); n > 0 {
			made[key] = n
		}
	}
	pieces, _ := json.Marshal(j.Pieces) // which have pointers
	return fmt.Sprintf("%+v|%+v|%s|%+v|%+v|%+v|%+v|%v|%v|%v|%q", j.Brief, j.Contact, pieces, j.Colours, j.Crew, j.Kit,
		j.Added, j.Prices, j.Choices, made, strings.Trim(string(j.State.Register("card/make/door", "note").Value()), `"`))
}
