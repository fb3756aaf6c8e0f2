package main

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/store"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCLIRestoreReportsWhatItKept checks that restore prints what it checked, what stays closed and what waits for the
// owner, and that the list of devices shows what is closed.
func TestCLIRestoreReportsWhatItKept(t *testing.T) {
	dir, ctx, now := madeData(t), context.Background(), time.Now().UnixMilli()
	data, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	owner := data.System("Owner")
	jobs, err := data.Jobs(owner)
	require.NoError(t, err)
	link, token, err := data.CreateLink(ctx, owner, jobs[0].ID,
		store.LinkWish{Name: "Bea", Role: job.Helper, Ends: now + 86_400_000})
	require.NoError(t, err)
	_, bea, err := data.RedeemLink(ctx, token, "")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, data.Backup(ctx, file))
	require.NoError(t, data.RevokeLink(ctx, owner, link.ID))
	resp, err := data.Sync(ctx, bea, jobs[0].ID, wire.Request{V: wire.WireVersion, Device: "phone", Now: now,
		Ops: []job.Op{
			{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Add, Entity: "card/make/door",
				Delta: 1, Wall: now},
		}})
	require.NoError(t, err)
	require.Equal(t, wire.Quarantined, resp.Acks[0].Result)
	require.NoError(t, data.Close())

	code, out, complaint := cli("restore", "--data", dir, file)
	require.Zero(t, code, complaint)
	assert.Contains(t, out, "Every record was checked, with its seal.")
	assert.Contains(t, out, "Kept closed: 1 link and 0 devices")
	assert.Contains(t, out, "Waiting for you on the job's Share page: 1 operation sent after the backup.")
	code, out, complaint = cli("invite", "--data", dir, "--list")
	require.Zero(t, code, complaint)
	assert.Regexp(t, `helper link\s+Bea\s+`+link.ID, out)

	code, out, complaint = cli("restore", "--data", filepath.Join(t.TempDir(), "elsewhere"), file)
	require.Zero(t, code, complaint)
	assert.Contains(t, out, "there is no workspace.key here or beside the backup")
	other := madeData(t)
	code, out, complaint = cli("restore", "--data", other, file)
	require.Zero(t, code, complaint)
	assert.Contains(t, out, "another workspace.key")
}
