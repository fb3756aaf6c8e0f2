package page_test

import (
	"bytes"
	"testing"

	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCalculatorsEstimateFirst checks a recipe outside the tables. The page shows an estimate at once, labelled as
// such, and the result when the model has computed it. Without a model it says how to measure instead.
func TestCalculatorsEstimateFirst(t *testing.T) {
	w := demo(t).visitor(job.Owner, "Dora").world1()
	const recipe = "1x5@4 + 1x36@33"
	draw := func(path, key, value string) string {
		r := page.Get(w, "/calc/"+path, form.Values{key: {value}, "recipe": {recipe}})
		var b bytes.Buffer
		require.NoError(t, view.PageInside(r.Frame, r.Body).Render(&b))
		return b.String()
	}
	assert.Contains(t, draw("clusters", "length", "10ft"), "make a metre of it")
	w.Model = new(cluster.Model)
	assert.Contains(t, draw("clusters", "length", "10ft"), "look again in a moment")
	w.Model.Work(func() {})
	for path, input := range map[string][2]string{"clusters": {"length", "10ft"}, "column": {"height", "6ft"},
		"accents": {"length", "10ft"}, "match": {"with", "36@30"}} {
		assert.NotContains(t, draw(path, input[0], input[1]), "Estimated", path)
	}
	assert.NotContains(t, draw("clusters", "measured", "3 in 1m"), "Estimated")
}
