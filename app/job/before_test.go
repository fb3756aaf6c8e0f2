package job_test

import (
	"cmp"
	"encoding/json"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/testdata/before"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Job files of an earlier build can be read: written again, they are equal to the byte. Only where walls and columns
// are built is new: a file that did not say means at the venue now.
func TestJobFilesOfAnEarlierBuildAreReadWhole(t *testing.T) {
	names := before.JobFiles(t)
	require.Len(t, names, 6)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			text := before.File(t, name)
			changes, err := job.DecodeFile(text)
			require.NoError(t, err)
			j := job.Preview(changes)
			again, err := job.EncodeFile(j)
			require.NoError(t, err)
			const site = "      \"built\": \"site\",\n"
			assert.Equal(t, strings.ReplaceAll(string(text), site, ""), strings.ReplaceAll(string(again), site, ""))
			var file struct {
				Pieces []struct{ ID, Kind, Built string }
			}
			require.NoError(t, json.Unmarshal(text, &file))
			for _, was := range file.Pieces {
				want := was.Built
				if want == "" && (was.Kind == "wall" || was.Kind == "column") {
					want = "site"
				}
				now, _ := j.Piece(was.ID)
				assert.Equal(t, cmp.Or(want, "home"), now.Built, was.ID)
			}
		})
	}
}
