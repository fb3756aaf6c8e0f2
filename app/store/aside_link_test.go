package store_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// SetLinkAside sets aside what arrived by a link since a time, even if the phone backdated it. It leaves other links
// and earlier arrivals alone.
func TestSetLinkAside(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	bea, _, beas := b.helper(t, owner, id, "Bea", job.Helper)
	_, _, inesses := b.helper(t, owner, id, "Ines", job.Helper)
	number := uint64(0)
	add := func(session store.Session, device string, wall int64) string {
		number++
		op := job.Op{ID: fmt.Sprintf("operation%s%d", device, number), Device: device, Number: number, Version: 1,
			Kind: job.Add, Entity: "card/make/door", Delta: 1, Wall: wall}
		require.Equal(t, sync.OK, b.send(t, session, id, op).Acks[0].Result)
		return op.ID
	}
	aside := func() []string {
		shared, _, err := b.State(id)
		require.NoError(t, err)
		var ids []string
		for _, entity := range shared.Entities("aside") {
			if string(shared.Register(entity, "aside").Value()) == "true" {
				ids = append(ids, entity[len("aside/"):])
			}
		}
		return ids
	}
	early := add(beas, "beas", b.now)
	b.now += 3 * hour
	late := add(beas, "beas", b.now)
	backdated := add(beas, "beas", b.now-3*hour)
	add(inesses, "inesses", b.now)
	assert.Equal(t, int64(4), b.made(t, id))
	since := b.now - hour
	for _, session := range []store.Session{beas, inesses} {
		_, err := b.SetLinkAside(b.ctx, session, id, bea.ID, since, "")
		assert.ErrorIs(t, err, store.ErrForbidden)
	}
	_, err := b.SetLinkAside(b.ctx, owner, id, "nolink", since, "")
	assert.ErrorIs(t, err, store.ErrNotFound)
	assert.Empty(t, aside())
	count, err := b.SetLinkAside(b.ctx, owner, id, bea.ID, since, "a flood")
	require.NoError(t, err)
	assert.Equal(t, 2, count)
	assert.ElementsMatch(t, []string{late, backdated}, aside())
	assert.Equal(t, int64(2), b.made(t, id), "one of Bea's and one of Ines' still count")
	count, err = b.SetLinkAside(b.ctx, owner, id, bea.ID, 0, "all of it")
	require.NoError(t, err)
	assert.Equal(t, 1, count, "the others are set aside already")
	assert.ElementsMatch(t, []string{early, late, backdated}, aside())
}

// made returns how many clusters of the door garland count.
func (b *bench) made(t *testing.T, jobID string) int64 {
	t.Helper()
	shared, _, err := b.State(jobID)
	require.NoError(t, err)
	return shared.Tally("card/make/door").Total()
}
