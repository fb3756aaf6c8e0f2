package page_test

import (
	"slices"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// names lists the crew of a job.
func names(j job.Job) (all []string) {
	for _, m := range j.Crew {
		all = append(all, m.Name)
	}
	return all
}

// TestPeopleAndKitCarryOver makes new jobs after the demo: with its people and kit, with fewer or more hands than
// people, and without them. Prices, the client and times stay behind.
func TestPeopleAndKitCarryOver(t *testing.T) {
	for _, row := range []struct {
		name    string
		typed   form.Values
		crew    []string
		withKit bool
	}{
		{"as offered", form.Values{}, []string{"Ines", "Tomasz", "Bea"}, true},
		{"fewer hands", form.Values{"crew": {"2"}}, []string{"Ines", "Tomasz"}, true},
		{"more hands", form.Values{"crew": {"5"}}, []string{"Ines", "Tomasz", "Bea", "Third helper", "Fourth helper"}, true},
		{"not wanted", form.Values{"carry": nil, "crew": {"2"}}, []string{"Dora", "First helper"}, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			v := demo(t).visitor(job.Owner, "Dora")
			before := v.current1("demo")
			v.visit("/new")
			assert.Contains(t, v.doc.Find("#new-job").Text(), "Use people and kit from my last job (3 people, 7 things)")
			typed := form.Values{"title": {"Next fair"}}
			for key, value := range row.typed {
				typed[key] = value
			}
			v.submit("#new-job", typed)
			require.Equal(t, 200, v.reply.Status, v.text())
			now := v.current()
			assert.NotEqual(t, "demo", now.ID)
			assert.Equal(t, row.crew, names(now))
			assert.Equal(t, row.withKit, len(now.Kit) == len(before.Kit), "%d things", len(now.Kit))
			for _, m := range now.Crew {
				assert.Empty(t, string(m.From)+string(m.To), "times are of the other event")
			}
			for _, k := range now.Kit {
				known := slices.ContainsFunc(now.Crew, func(m job.Member) bool { return m.ID == k.Driver })
				assert.True(t, k.Driver == "" || known, "%s is driven by nobody of this job", k.Name)
			}
			assert.Equal(t, job.Contact{}, now.Contact)
		})
	}
}

// TestAnEmptyListTakesThoseOfAnotherJob copies crew and kit of the demo into a job without any, once.
func TestAnEmptyListTakesThoseOfAnotherJob(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.visit("/new").submit("#new-job", form.Values{"title": {"Alone"}, "carry": nil, "crew": {""}})
	require.Equal(t, 200, v.reply.Status, v.text())
	id := v.current().ID
	require.Empty(t, v.current().Crew)
	for _, list := range []string{"crew", "kit"} {
		at := "/jobs/" + id + "/" + list
		v.visit(at).submit("#take-demo", nil)
		require.Equal(t, 200, v.reply.Status, v.text())
		assert.Zero(t, v.doc.Find("#take").Length(), "it is offered for an empty list only")
		v.post(at, form.Values{"act": {"take"}, "id": {"demo"}})
		assert.Equal(t, 422, v.reply.Status, "a second time would double it")
	}
	demo, now := v.current1("demo"), v.current1(id)
	assert.Equal(t, names(demo), names(now))
	assert.Len(t, now.Kit, len(demo.Kit))
	lead := v.visitor(job.Lead, "Tomasz").visit("/jobs/" + id + "/kit")
	assert.Equal(t, 403, lead.reply.Status)
}
