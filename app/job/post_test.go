package job_test

import (
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPostIDs(t *testing.T) {
	const post = job.Post("abcdefghijklmnopqrstuv7777")
	require.True(t, post.Valid())
	seen, tails := map[string]bool{}, map[string]bool{}
	for n := range 2000 {
		for _, id := range []string{post.OpID(false, n), post.OpID(true, n), post.EntityID(n)} {
			require.False(t, seen[id], "%s is repeated", id)
			seen[id] = true
			require.True(t, job.Post(id).Valid(), "%s has the form of every id", id)
		}
		require.Equal(t, post.Mark(), job.PostMark(post.OpID(n%2 == 0, n)))
		tail := post.EntityID(n)[18:]
		require.False(t, tails[tail], "pages use the last letters only")
		tails[tail] = true
	}
	assert.Equal(t, post.EntityID(3), post.EntityID(3))
	other := job.Post("abcdefghijklmnopqrsta" + "aaaaa")
	require.True(t, other.Valid())
	assert.Equal(t, "saaaaabcdefghijklmnopqrstu", post.OpID(false, 0))
	assert.NotEqual(t, post.OpID(false, 0), other.OpID(false, 0))
}

func TestInvalidPosts(t *testing.T) {
	for name, id := range map[string]string{"nothing": "", "short": "abc", "capitals": strings.Repeat("A", 26),
		"digits out of base32": strings.Repeat("8", 26), "long": strings.Repeat("a", 27)} {
		assert.False(t, job.Post(id).Valid(), name)
	}
	assert.Empty(t, job.PostMark("short"))
	assert.Empty(t, job.PostMark(strings.Repeat("a", 26)), "an operation of an older build")
}
