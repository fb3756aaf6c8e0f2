package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const ownFigure = "minutes/duplet/11/beginner"

// measured returns an owner whose job has one measured figure and one that was reset to the table's.
func measured(t *testing.T) (*world, *visitor) {
	w, v := typedJob(t)
	w.write(
		job.Author{Role: job.Owner},
		oneWrite(v.current().ID, job.Put("override/"+ownFigure, "value", 1.5),
			job.Put("override/"+ownFigure, "note", "timed in May"), job.Put("override/spares/indoors", "value", 9),
			job.Put("override/spares/indoors", "value", nil)),
	)
	return w, v
}

func figureOf(t *testing.T, p plan.Plan, key string) figures.Figure {
	t.Helper()
	for _, f := range p.Figures {
		if f.Key == key {
			return f
		}
	}
	require.FailNow(t, "no such figure", key)
	return figures.Figure{}
}

func TestANewJobCopiesOwnFigures(t *testing.T) {
	w, v := measured(t)
	first := v.current().ID
	v.visit("/new")
	require.Contains(t, v.text(), "Use 1 number from my last job")
	v.submit("#new-job", form.Values{"title": {"Second"}, "piece.garland": {"10"}, "crew": {"2"}})
	j := v.current()
	require.NotEqual(t, first, j.ID)
	require.Len(t, j.Overrides, 1)
	assert.Equal(t, 1.5, *j.Overrides[ownFigure].Value)
	assert.Equal(t, "from your last job: timed in May", j.Overrides[ownFigure].Note)
	assert.True(t, figureOf(t, plan.Make(j), ownFigure).Overridden)
	v.visit("/jobs/" + j.ID + "/figures")
	note, _ := v.doc.Find(`[name="note.` + ownFigure + `"]`).Attr("value")
	assert.Equal(t, "from your last job: timed in May", note)

	w.write(job.Author{Role: job.Owner}, oneWrite(j.ID, job.Put("override/"+ownFigure, "value", 1.25)))
	v.visit("/new")
	v.submit("#new-job", form.Values{"title": {"Third"}})
	third := v.current().Overrides[ownFigure]
	assert.Equal(t, 1.25, *third.Value, "it must come from the last job")
	assert.Equal(t, "from your last job: timed in May", third.Note, "the source must be named once")
}

func TestANewJobLeavesOwnFiguresOut(t *testing.T) {
	_, v := measured(t)
	v.visit("/new")
	v.submit("#new-job", form.Values{"title": {"Second"}, "own_figures": nil})
	assert.Empty(t, v.current().Overrides)
	v.visit("/new")
	v.submit("#new-job", form.Values{"piece.garland": {"long"}, "own_figures": nil})
	require.Equal(t, 422, v.reply.Status)
	_, ticked := v.doc.Find(`[name="own_figures"]`).Attr("checked")
	assert.False(t, ticked, "the box must stay unticked")
}

func TestTheBoxNeedsOwnFigures(t *testing.T) {
	_, v := typedJob(t)
	v.visit("/new")
	assert.Zero(t, v.doc.Find(`[name="own_figures"]`).Length())
}

// TestAnUnnamedOwnerIsNotCalledYou checks that an owner without a name is not called "You" on a helper's screen.
func TestAnUnnamedOwnerIsNotCalledYou(t *testing.T) {
	w := newWorld(t)
	v := w.visitor(job.Owner, "")
	v.visit("/new")
	v.submit("#new-job", form.Values{"title": {"Reading room reopening"}, "crew": {"2"}})
	require.Len(t, v.current().Crew, 2)
	assert.Equal(t, "The owner", v.current().Crew[0].Name)
}

func oneWrite(id string, changes ...job.Change) page.Write {
	return page.Write{Job: id, Changes: changes}
}

// TestLineStrengthInPounds checks that people who use feet see and type the strength of a line in pounds, with or
// without the unit.
func TestLineStrengthInPounds(t *testing.T) {
	for units, row := range map[string]struct{ shown, beside, typed string }{
		"imperial": {"20.2 lb", "", "30"}, "metric": {"90", "N", "133.4"},
	} {
		t.Run(units, func(t *testing.T) {
			w, v := typedJob(t)
			id := v.current().ID
			w.write(job.Author{Role: job.Owner}, oneWrite(id, job.Put("brief", "units", units),
				job.Put("kit/sign", "kind", "other"), job.Put("kit/sign", "name", "Light sign"),
				job.Put("kit/sign", "weight_g", 1500), job.Put("choice/overhead/sign", "pick", "clear")))
			v.visit("/jobs/" + id + "/figures")
			field := v.doc.Find(`[name="value.line/strength"]`)
			shown, _ := field.Attr("placeholder")
			assert.Equal(t, row.shown, shown)
			assert.Equal(t, row.beside, field.Siblings().Filter("span").Text())
			group, _ := field.Closest("form").Attr("id")
			v.submit("#"+group, form.Values{"value.line/strength": {row.typed}})
			assert.InDelta(t, 133.4, *v.current().Overrides["line/strength"].Value, 0.1)
			v.submit("#"+group, form.Values{"value.line/strength": {"-1"}})
			require.Equal(t, 422, v.reply.Status)
		})
	}
}
