package job_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/testdata/before"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Job files of an earlier build can be read: written again, they are equal to the byte.
func TestJobFilesOfAnEarlierBuildAreReadWhole(t *testing.T) {
	names := before.JobFiles(t)
	require.Len(t, names, 6)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			text := before.File(t, name)
			changes, err := job.DecodeFile(text)
			require.NoError(t, err)
			again, err := job.EncodeFile(job.Preview(changes))
			require.NoError(t, err)
			assert.Equal(t, string(text), string(again))
		})
	}
}
