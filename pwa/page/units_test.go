package page_test

import (
	"regexp"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/form"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// speak checks that the page has examples, defaults, helps and errors in these units only, and that there are some.
// Left out are recipes, since balloons are sold by inches everywhere, figures with a unit of their own beside them, and
// inputs of calculators that are named after a metric unit.
func (v *visitor) speak(s measure.System) {
	read := 0
	const inPage = "[placeholder], .help, p.wrong, .empty, #result > .soft, #calc input, #new-job input"
	v.doc.Find("#page").Find(inPage).
		Each(func(_ int, x *goquery.Selection) {
			name := x.AttrOr("name", x.AttrOr("id", ""))
			for _, text := range []string{x.AttrOr("placeholder", ""), x.AttrOr("value", ""), strings.TrimSpace(x.Text())} {
				if text != "" && !ownUnits.MatchString(name) {
					read++
					assert.True(v.t, measure.Speaks(text, s), "%s, %s, %s: %q", v.at, s, name, text)
				}
			}
		})
	assert.Positive(v.t, read, v.at)
}

var ownUnits = regexp.MustCompile(`recipe|f-value|^(f-)?(extra_g|latex_g|pulls|holds|litres|cylinder_)`)

// spoil types what no field of a quantity takes into all of the page's fields with an example, form by form, and checks
// what the page says then.
func (v *visitor) spoil(s measure.System) {
	at := v.at
	for i := range v.doc.Find(`#page form[method="post"]`).Length() {
		f := v.visit(at).doc.Find(`#page form[method="post"]`).Eq(i)
		typed := standing(f)
		f.Find("[placeholder]").Each(func(_ int, x *goquery.Selection) { typed[x.AttrOr("name", "")] = []string{"??"} })
		if f.Find("[placeholder]").Length() > 0 {
			if v.post(f.AttrOr("action", ""), typed); v.reply.Status == 422 {
				v.speak(s)
			}
		}
	}
}

// TestExamplesFollowTheUnitsOfTheRegion checks start page, new job and calculators of somebody who has no job.
func TestExamplesFollowTheUnitsOfTheRegion(t *testing.T) {
	for _, s := range []measure.System{measure.Metric, measure.Imperial} {
		w := newWorld(t)
		w.units = s
		v := w.visitor(job.Owner, "Dora")
		v.visit("/").speak(s)
		wide := map[measure.System]string{measure.Metric: "2.4 m wide", measure.Imperial: "8 ft wide"}[s]
		assert.Contains(t, v.doc.Text(), wide)
		v.visit("/new").speak(s)
		v.submit("#new-job", form.Values{"title": {"A"}, "build": {"wall"}, "piece.wall": {"3 x"}})
		require.Equal(t, 422, v.reply.Status)
		v.speak(s)
		for _, c := range calc.All() {
			v.visit("/calc/" + c.Name).speak(s)
			for _, in := range c.Inputs {
				v.visit("/calc/" + c.Name + "?" + in.Key + "=x").speak(s)
			}
		}
	}
}

// TestExamplesFollowTheUnitsOfTheJob checks forms of a job in either system, empty and with what cannot be read.
func TestExamplesFollowTheUnitsOfTheJob(t *testing.T) {
	other := map[measure.System]measure.System{measure.Metric: measure.Imperial, measure.Imperial: measure.Metric}
	for _, s := range []measure.System{measure.Metric, measure.Imperial} {
		w := demo(t)
		w.units = other[s]
		w.write(job.Author{Role: job.Owner}, writeOf("demo", job.Put("brief", "units", string(s))))
		v := w.visitor(job.Owner, "Dora")
		for _, page := range []string{"brief", "crew", "kit", "figures", "pieces/new?kind=wall"} {
			v.visit("/jobs/demo/" + page).speak(s)
			v.spoil(s)
		}
		for _, p := range v.current1("demo").Pieces {
			v.visit("/jobs/demo/pieces/" + p.ID).speak(s)
			v.spoil(s)
		}
	}
}
