package device

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/sync/phone"
)

// written is a storage that records every commit and accepts any generation.
type written struct {
	batches []Batch
	refuses error
}

func (*written) Read(...Span) (Snapshot, error) { return Snapshot{}, nil }
func (*written) Alone(work func() error) error  { return work() }
func (d *written) Commit(b Batch) (bool, error) {
	d.batches = append(d.batches, b)
	return d.refuses == nil, d.refuses
}
func stepOn(rev, next uint64, key string) phone.Step {
	return phone.Step{If: rev, Rev: next, Put: []phone.Row{{Key: key}}}
}

// TestAStepOnAnUnwrittenStepIsStale checks that a step is stale if the step before it was never written. This happens
// when an action fails halfway and the storage cannot be read again, even if no other tab has written.
func TestAStepOnAnUnwrittenStepIsStale(t *testing.T) {
	disk := &written{}
	c := &Core{phone: new(phone.Phone), Options: Options{Disk: disk, NewID: func() string { return "token" }},
		base: base{"4", 4}}
	require.ErrorIs(t, c.commit(stepOn(5, 6, "out/two"), nil), errStale)
	assert.Empty(t, disk.batches)

	require.NoError(t, c.commit(stepOn(4, 5, "out/one"), nil))
	require.NoError(t, c.commit(stepOn(5, 6, "out/two"), nil), "it was written now")
	assert.Len(t, disk.batches, 2)
	assert.Equal(t, base{"6", 6}, c.base)

	disk.refuses = assert.AnError // from here on the memory is ahead of the disk
	require.NoError(t, c.commit(stepOn(6, 7, "out/three"), nil))
	require.ErrorIs(t, c.commit(stepOn(8, 9, "out/five"), nil), errStale, "the step before was not written")
	require.NoError(t, c.commit(stepOn(7, 8, "out/four"), nil))
	last := disk.batches[len(disk.batches)-1]
	assert.Equal(t, []Entry{{"out/three", ""}, {"out/four", ""}}, last.Put, "the refused entry is written too")
	assert.Equal(t, "6", last.Expected)
}
