package store_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A helper's work that arrives after a job was archived counts and is listed as late.
func TestLateWorkIsListed(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	send := func(n uint64) {
		require.Equal(t, sync.OK, b.send(t, bea, id, addition(n, 5, start)).Acks[0].Result)
	}
	listed := func() []string {
		late, err := b.Late(id)
		require.NoError(t, err)
		var ids []string
		for _, r := range late {
			ids = append(ids, r.ID)
		}
		return ids
	}
	away := func(put bool) {
		b.now += hour
		_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "away", put)})
		require.NoError(t, err)
	}
	send(1)
	assert.Empty(t, listed())
	away(true)
	assert.Empty(t, listed())
	send(2)
	assert.Equal(t, []string{"operation2"}, listed())
	assert.Equal(t, 10, b.read(t, id).Made("card/make/door"), "it counts")
	_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("card/make/door", "note", "mine")})
	require.NoError(t, err)
	assert.Equal(t, []string{"operation2"}, listed(), "the owner's own work is not listed")
	away(false)
	assert.Empty(t, listed())
	_, err = b.Late("nothere")
	assert.ErrorIs(t, err, store.ErrNotFound)
}
