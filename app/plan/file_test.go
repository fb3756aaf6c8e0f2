package plan_test

import (
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/internal/sample"
	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each bad file is refused with the place of its error. A new file needs an entry here.
func TestBadFilesAreRefusedByName(t *testing.T) {
	wants := map[string]string{
		"doors-before-in.json": "brief.doors",
		"million-duplets.json": "pieces[0].recipe",
		"negative-length.json": "pieces[0].length_mm",
		"newer.json":           "newer version",
		"no-sizes.json":        "colours[0].sizes",
		"no-version.json":      "garlandry",
		"not-an-object.json":   "not a JSON job file",
		"ten-kilometres.json":  "pieces[0].length_mm",
		"truncated.json":       "at byte",
		"twice.json":           "used twice",
		"unknown-colour.json":  "nowhere",
		"unknown-kind.json":    "pieces[0].kind",
		"unknown-size.json":    "13-inch",
	}
	files, err := filepath.Glob(filepath.Join(sample.Dir, "bad", "*.json"))
	require.NoError(t, err)
	assert.Len(t, files, len(wants))
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			want, entered := wants[filepath.Base(file)]
			require.True(t, entered)
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			_, err = job.DecodeFile(data)
			assert.ErrorContains(t, err, want)
		})
	}
}
