package view_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The cover of every sample job has at most 60 circles and 3 kB. It says nothing that the row does not say.
func TestCoversAreSmall(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.json")
	require.NoError(t, err)
	drawn := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		changes, err := job.DecodeFile(data)
		if err != nil {
			continue // one that is meant to be wrong
		}
		p := plan.Make(job.Preview(changes))
		steps := 0
		row := view.JobRow{ID: "j", Title: "It", Cover: view.Cover(&p, func() { steps++ }), Design: 7}
		assert.LessOrEqual(t, steps, 4, "%s: no more pieces than can be told apart", file)
		assert.Equal(t, row.Cover != nil, steps > 0, file)
		_, html, found := strings.Cut(render(t, view.Jobs(dora(), []view.JobRow{row}, 0)), `<span class="thumbnail"`)
		require.True(t, found)
		html, _, _ = strings.Cut(html, "</span>")
		assert.LessOrEqual(t, len(html), 3000, file)
		assert.LessOrEqual(t, strings.Count(html, "<circle"), 60, file)
		assert.NotContains(t, html, "url(", "%s: the page defines no shades", file)
		if row.Cover != nil {
			drawn++
			assert.Greater(t, strings.Count(html, "<circle"), 30, file)
			assert.Len(t, row.Cover.Items, steps, file)
			assert.Contains(t, html, `aria-hidden="true"`)
		}
	}
	assert.Greater(t, drawn, 4)
}
