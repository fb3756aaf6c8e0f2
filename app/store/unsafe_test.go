package store_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A journal of an older build may hold records that could crash a phone. A replay skips and names them.
func TestReplaySkipsUnsafeRecords(t *testing.T) {
	b, jobs, want := worked(t)
	deep := job.Rec{
		Op: job.Op{ID: "operation-deep", Device: "mallory", Number: 1, Version: 1, Kind: "wave",
			Entity: "card/look", Value: json.RawMessage(strings.Repeat("[", 9000) + strings.Repeat("]", 9000))},
		Effective: b.now,
		Seq:       99,
	}
	files, err := filepath.Glob(filepath.Join(b.dir, "ops-*.ndjson"))
	require.NoError(t, err)
	text, err := json.Marshal(map[string]any{"log": jobs[0], "rec": deep})
	require.NoError(t, err)
	f, err := os.OpenFile(files[len(files)-1], os.O_APPEND|os.O_WRONLY, 0o600)
	require.NoError(t, err)
	_, err = f.Write(append(text, '\n'))
	require.NoError(t, err)
	require.NoError(t, f.Close())
	require.NoError(t, os.Rename(filepath.Join(b.dir, store.DatabaseName), filepath.Join(b.dir, "old")))
	result, err := store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	require.Len(t, result.Refused, 1)
	assert.Contains(t, result.Refused[0], deep.ID)
	b.reopen(t)
	for i, got := range states(t, b.Store, jobs) {
		sameState(t, want[i], got)
	}
}

// Operations that were set aside stay so after a replay.
func TestReplayKeepsSetAside(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	bad := job.Op{ID: "operation1", Device: "phone", Number: 1, Kind: job.Set, Entity: "brief", Field: "title",
		Value: []byte(`"Wrong"`)}
	require.Equal(t, sync.OK, b.sendOne(t, owner, id, bad).Result)
	require.NoError(t, b.SetAside(b.ctx, owner, id, bad.ID, true, "by a child"))
	shared, _, err := b.State(id)
	require.NoError(t, err)
	want := shared.Clone()
	require.NoError(t, b.Close())
	require.NoError(t, os.Rename(filepath.Join(b.dir, store.DatabaseName), filepath.Join(b.dir, "old")))
	_, err = store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	shared, _, err = b.State(id)
	require.NoError(t, err)
	sameState(t, want, shared)
	resp, err := b.Sync(b.ctx, b.System("test"), id, sync.Request{V: sync.WireVersion, Device: "reader", Now: b.now})
	require.NoError(t, err)
	for _, r := range resp.Recs {
		assert.Equal(t, r.ID == bad.ID, r.Kind == job.Emptied)
	}
}
