package job_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

// TestBouquetsInAFileFloatUnlessItSaysAir checks that bouquets in a file without a gas are filled with helium, that air
// stays air, and that a piece stored without a gas stays as it was, through a file and back too.
func TestBouquetsInAFileFloatUnlessItSaysAir(t *testing.T) {
	gases := func(file string) map[string]string {
		changes, err := job.DecodeFile([]byte(file))
		require.NoError(t, err)
		all := map[string]string{}
		for _, p := range job.Preview(changes).Pieces {
			all[p.ID] = p.Gas
		}
		return all
	}
	assert.Equal(t, map[string]string{"a": "helium", "b": "air", "c": "air", "d": "helium"}, gases(`{"garlandry":1,
		"pieces":[{"id":"a","name":"A","kind":"bouquets"},{"id":"b","name":"B","kind":"bouquets","gas":"air"},
		{"id":"c","name":"C","kind":"tables"},{"id":"d","name":"D","kind":"bouquets","gas":null}]}`))

	stored := job.Preview([]job.Change{job.Put("piece/a", "name", "A"), job.Put("piece/a", "kind", "bouquets")})
	assert.Equal(t, "air", stored.Pieces[0].Gas)
	file, err := job.EncodeFile(stored)
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"a": "air"}, gases(string(file)))
}
