package job_test

import (
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWallsAndColumnsInAFileAreBuiltAtTheVenue checks that walls and columns in a file are built at the venue unless it
// says home, and that a piece stored without a place stays as it was, through a file and back too.
func TestWallsAndColumnsInAFileAreBuiltAtTheVenue(t *testing.T) {
	places := func(file string) map[string]string {
		changes, err := job.DecodeFile([]byte(file))
		require.NoError(t, err)
		all := map[string]string{}
		for _, p := range job.Preview(changes).Pieces {
			all[p.ID] = p.Built
		}
		return all
	}
	assert.Equal(t, map[string]string{"a": "site", "b": "home", "c": "site", "d": "home"}, places(`{"garlandry":1,
		"pieces":[{"id":"a","name":"A","kind":"wall"},{"id":"b","name":"B","kind":"column","built":"home"},
		{"id":"c","name":"C","kind":"column","built":null},{"id":"d","name":"D","kind":"garland"}]}`))
	stored := job.Preview([]job.Change{job.Put("piece/a", "name", "A"), job.Put("piece/a", "kind", "wall")})
	assert.Equal(t, "home", stored.Pieces[0].Built)
	file, err := job.EncodeFile(stored)
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"a": "home"}, places(string(file)))
}
