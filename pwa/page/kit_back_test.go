package page_test

import (
	"strconv"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestKitIsTickedBackIntoTheCar checks that a helper ticks the kit back into the car at take-down. The card says who
// did and what is missing, and each tick can be undone.
func TestKitIsTickedBackIntoTheCar(t *testing.T) {
	w, v := typedKit(t)
	id := v.current().ID
	at := "/jobs/" + id
	helper := w.visitor(job.Helper, "Ines")
	line := func(key string) packing.Line {
		j, _ := w.read(id)
		for _, bag := range plan.Make(j).Pack {
			for _, l := range bag.Lines {
				if l.Key == key {
					return l
				}
			}
		}
		require.FailNow(t, "no such line", key)
		return packing.Line{}
	}
	card := func() string { return helper.visit(at + "/cards/reload").doc.Find("#page").Text() }
	missing := func() string { return helper.visit(at + "/cards/reload").doc.Find("#page p.waits").Text() }
	before := card()
	assert.Contains(t, before, "Back into the car")
	assert.Contains(t, missing(), "Tall ladder")
	assert.Contains(t, missing(), "Music stand")
	act := func(key, n string) page.Reply {
		reply := page.Post(helper.world1(), at+"/do",
			form.Values{view.FieldAct: {"back"}, view.FieldEntity: {key}, view.FieldAmount: {n}})
		require.Len(t, reply.Writes, 1, reply.Title)
		w.write(job.Author{Role: job.Helper, Name: "Ines"}, reply.Writes[0])
		return reply
	}
	form3 := helper.doc.Find(`li#back-pack-kit-stand form`).First()
	assert.Equal(t, "3", form3.Find(`input[name="n"]`).AttrOr("value", ""), "the default must be the packed count")
	reply := act("pack/kit/ladder", "1")
	act("pack/kit/stand", "2")
	assert.Equal(t, &view.Action{Act: "back", Entity: "pack/kit/ladder", N: view.Amount(0)}, reply.Undo)
	assert.Equal(t, 2, line("pack/kit/stand").Back)
	assert.Equal(t, 3, line("pack/kit/stand").Have, "the packed count must stay")
	after := card()
	assert.NotContains(t, missing(), "Tall ladder")
	assert.Contains(t, missing(), "Music stand")
	assert.Contains(t, after, "1 of 1 back, Ines")
	assert.Contains(t, after, "2 of 3 back, Ines")
	history := v.visit(at + "/history?e=pack/kit/ladder").doc
	assert.Contains(t, history.Text(), "Back in the car: 1")
	assert.Equal(t, 1, history.Find(`form input[name="act"][value="back"]`).Length(), "the history must offer an undo")
	act("pack/kit/ladder", "0")
	assert.Contains(t, missing(), "Tall ladder")
	assert.Contains(t, v.visit(at+"/history?e=pack/kit/ladder").doc.Text(), "Not back in the car")
	j, _ := w.read(id)
	for _, bag := range plan.Make(j).Pack {
		for _, l := range bag.Lines {
			if l.Out() > 0 {
				act(l.Key, strconv.Itoa(l.Out()))
			}
		}
	}
	assert.Contains(t, card(), "All back in the car.")
	assert.NotContains(t, card(), "Still missing")
}

func TestKitIsNotTickedBackWrongly(t *testing.T) {
	w, v := typedKit(t)
	at, helper := "/jobs/"+v.current().ID, w.visitor(job.Helper, "Ines")
	wrong := []form.Values{
		{view.FieldAct: {"back"}, view.FieldEntity: {"pack/kit/ladder"}},
		{view.FieldAct: {"back"}, view.FieldEntity: {"pack/kit/ladder"}, view.FieldAmount: {"-1"}},
		{view.FieldAct: {"back"}, view.FieldEntity: {"card/load"}, view.FieldAmount: {"1"}},
		{view.FieldAct: {"back"}, view.FieldEntity: {"kit"}, view.FieldAmount: {"1"}},
	}
	for _, in := range wrong {
		reply := page.Post(helper.world1(), at+"/do", in)
		assert.Empty(t, reply.Writes, "%v", in)
		assert.GreaterOrEqual(t, reply.Status, 400)
		assert.Less(t, reply.Status, 500)
	}
}

// typedKit returns a typed job with a ladder and packed music stands.
func typedKit(t *testing.T) (*world, *visitor) {
	w, v := typedJob(t)
	w.write(job.Author{Role: job.Owner}, page.Write{Job: v.current().ID, Changes: []job.Change{
		job.Put("kit/ladder", "name", "Tall ladder"), job.Put("kit/ladder", "kind", "ladder"),
		job.Put("kit/ladder", "count", 1),
		job.Put("kit/stand", "name", "Music stand"), job.Put("kit/stand", "kind", "other"), job.Put("kit/stand", "count", 4),
		job.Put("pack/kit/stand", "have", 3)}})
	return w, v
}
