package job_test

import (
	"encoding/json"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFileRoundTrip(t *testing.T) {
	src := `{"garlandry":1,"brief":{"title":"Reading room reopening","in":"2027-05-08T08:00","doors":"2027-05-08T11:00"},
	"colours":[{"id":"coral","name":"Coral","value":"#e5604d","sizes":[5,11]}],
	"pieces":[{"id":"door","name":"Door garland","kind":"garland","line":"arch","width_mm":2400,"height_mm":2400,
		"recipe":"2x11@10 + 1x18@16",
		"colours":[{"colour":"coral","weight":2}]}],
	"progress":[{"key":"card/make/door","made":12},{"key":"pack/latex/11/coral","have":40}]}`
	changes, err := job.DecodeFile([]byte(src))
	require.NoError(t, err)
	j := job.Preview(changes)
	assert.Equal(t, "Reading room reopening", j.Brief.Title)
	assert.Equal(t, "indoors", j.Brief.Place, "defaults fill what is not set")
	require.Len(t, j.Pieces, 1)
	assert.Equal(t, 6, j.Pieces[0].Recipe.Balloons())
	assert.Equal(t, 12, j.Made("card/make/door"))
	assert.Equal(t, 40, j.Packed("pack/latex/11/coral"))
	data, err := job.EncodeFile(j)
	require.NoError(t, err)
	again, err := job.DecodeFile(data)
	require.NoError(t, err)
	second, err := job.EncodeFile(job.Preview(again))
	require.NoError(t, err)
	assert.Equal(t, string(data), string(second))
	var any map[string]any
	require.NoError(t, json.Unmarshal(data, &any))
}
