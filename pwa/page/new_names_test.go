package page_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestColoursByName checks that a colour typed by a known name gets that colour. The values of names outside the start
// palette are those of CSS Color Module Level 4, Named Colors.
func TestColoursByName(t *testing.T) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/new").
		submit("#new-job", form.Values{"title": {"Names"}, view.StartColour: {"coral"},
			view.StartOther: {"CORAL, ink-blue; sky blue, Navy, mustard, moss"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	looks := map[string]string{}
	for _, c := range v.current().Colours {
		looks[c.Name] = c.Value
	}
	assert.Equal(
		t,
		map[string]string{"Coral": "#e5604d", "Ink blue": "#24416b", "sky blue": "#87ceeb", "Navy": "#000080",
			"mustard": "#c8c8c8", "moss": "#b0b0b0"},
		looks,
	)
	assert.Contains(t, v.doc.Text(), "Set under Colours how these look: mustard, moss.")
	many := "a"
	for range 30 {
		many += ",x" + many[:1] + strings.Repeat("b", len(many)/40)
	}
	v.visit("/new").submit("#new-job", form.Values{"title": {"Greys"}, view.StartOther: {many}})
	require.Equal(t, 200, v.reply.Status, "any number of unknown names is accepted")
}

// TestUnitsOfTheLatestJob checks that pages outside a job use the units of the latest job.
func TestUnitsOfTheLatestJob(t *testing.T) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/new")
	assert.Equal(t, "imperial", standing(v.doc.Find("#new-job")).Get("units"), "the default before there is a job")
	for _, units := range []string{"metric", "imperial", "metric"} {
		v.submit("#new-job", form.Values{"title": {"In " + units}, "units": {units}, "piece.garland": {"3 m"}})
		require.Equal(t, 200, v.reply.Status, v.text())
		v.visit("/new")
		assert.Equal(t, units, standing(v.doc.Find("#new-job")).Get("units"))
		v.visit("/calc/cluster-counts")
		v.visit("/new")
	}
}

// TestUnitsOfTheDemoAreNobodysChoice checks that a job of the server, which is in feet, leaves the region's units to
// new jobs and calculators, until the visitor chooses others for a job of their own or for that one.
func TestUnitsOfTheDemoAreNobodysChoice(t *testing.T) {
	w := demo(t)
	w.units = measure.Metric
	v := w.visitor(job.Owner, "Dora")
	units := func() string { return standing(v.visit("/new").doc.Find("#new-job")).Get("units") }
	imperial := job.Put("brief", "units", "imperial")
	w.write(job.Author{Role: job.Owner, Link: job.ServerLink}, writeOf("demo", imperial))
	assert.Equal(t, "metric", units())
	assert.Equal(t, "metric", standing(v.visit("/calc/wall").doc.Find("#calc")).Get("units"))
	v.visit("/new").submit("#new-job", form.Values{"title": {"Mine"}, "units": {"metric"}, "piece.garland": {"3 m"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	mine := v.current().ID
	w.write(job.Author{Role: job.Owner, Link: job.ServerLink}, writeOf("demo", imperial))
	assert.Equal(t, "metric", units())
	w.write(job.Author{Role: job.Owner, Link: "phone"}, writeOf(mine, imperial))
	assert.Equal(t, "imperial", units(), "chosen for the own job")
	w.write(job.Author{Role: job.Owner, Link: "phone"}, writeOf("demo", job.Put("brief", "units", "metric")))
	assert.Equal(t, "metric", units(), "chosen for the demo, later")
}

// TestYourNameIsAskedOnce checks that the form of a new job asks for the owner's name until it is known.
func TestYourNameIsAskedOnce(t *testing.T) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "")
	v.visit("/new")
	assert.Equal(t, "", standing(v.doc.Find("#new-job")).Get(view.StartYou))
	v.submit("#new-job", form.Values{"title": {"First"}, view.StartYou: {"Dora"}})
	require.Equal(t, "Dora", v.current().Crew[0].Name)
	v.visit("/new")
	assert.Equal(t, "Dora", standing(v.doc.Find("#new-job")).Get(view.StartYou))
	v.submit("#new-job", form.Values{"title": {"Second"}})
	assert.Equal(t, "Dora", v.current().Crew[0].Name)
	named := w.visitor(job.Owner, "Tomasz").visit("/new")
	assert.Equal(t, "Tomasz", standing(named.doc.Find("#new-job")).Get(view.StartYou), "a link's name takes precedence")
}

func TestANoteThatIsTooLongIsShownAtTheNote(t *testing.T) {
	w, v := measured(t)
	id, note := v.current().ID, view.FigureNote(ownFigure)
	v.visit("/jobs/" + id + "/figures")
	selector := `form:has([name="` + note + `"])`
	assert.Equal(t, "200", v.doc.Find(`[name="`+note+`"]`).AttrOr("maxlength", ""))
	seq := w.seq
	v.submit(selector, form.Values{note: {strings.Repeat("x", 201)}})
	require.Equal(t, 422, v.reply.Status)
	input := v.doc.Find(`[name="` + note + `"]`)
	assert.Equal(t, "true", input.AttrOr("aria-invalid", ""))
	assert.Contains(t, v.doc.Find("#"+input.AttrOr("aria-describedby", "none")).Text(), "up to 200 characters")
	target := v.doc.Find(".wronglist a").AttrOr("href", "none")
	assert.Equal(t, target, "#"+input.AttrOr("id", ""), "the link must lead to the note")
	assert.Equal(t, seq, w.seq)
}

// TestAnExistingJobCopiesFigures checks that a job without measurements, such as an imported one, can copy those of the
// last job.
func TestAnExistingJobCopiesFigures(t *testing.T) {
	w, v := measured(t)
	w.load("demo", "reading-room.json")
	w.write(job.Author{Role: job.Owner},
		page.Write{Job: "demo", Changes: []job.Change{job.Put("override/spares/indoors", "value", 4)}})
	w.write(job.Author{Role: job.Owner},
		page.Write{Job: v.current().ID, Changes: []job.Change{job.Put("override/spares/indoors", "value", 9)}})
	v.visit("/jobs/demo/figures")
	require.Contains(t, v.doc.Find("#last-figures").Text(), "Use 1 number from my last job")
	v.submit("#last-figures", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	j := v.current()
	assert.Equal(t, 1.5, *j.Overrides[ownFigure].Value)
	assert.Equal(t, "from your last job: timed in May", j.Overrides[ownFigure].Note)
	assert.Equal(t, 4.0, *j.Overrides["spares/indoors"].Value, "this job's own figure must stay")
	assert.Zero(t, v.doc.Find("#last-figures").Length(), "the offer must disappear")
}
