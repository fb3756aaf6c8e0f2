package ledgertest

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// setAside returns the owner's operation that sets another one aside, or restores it.
func setAside(number uint64, op string, on bool) job.Op {
	c := job.SetAside("operation-"+op, false, on, "")[0]
	return job.Op{ID: fmt.Sprintf("operation-aside%d", number), Device: "owner", Number: number, Version: 1,
		Kind: job.Set, Entity: c.Entity, Field: c.Field, Value: c.Value, Wall: now}
}

func aside(t *testing.T, open Open) {
	in := open(t, "job1")
	bad := tick("bad", "a", 1, now)
	bad.Parents, bad.Value = ids([]string{"none"}), json.RawMessage("true")
	serve(t, in, helper, post(now, bad, tick("good", "a", 2, now)), now)
	before := serve(t, in, helper, post(now), now)
	for _, session := range []server.Session{helper, lead} {
		assert.Equal(t, "denied", results(serve(t, in, session, post(now, setAside(1, "bad", true)), now)),
			session.Author.Role)
	}
	require.Equal(t, "ok", results(serve(t, in, owner, post(now, setAside(1, "bad", true)), now)))

	pulled := serve(t, in, helper, post(now), now)
	require.Len(t, pulled.Recs, 3)
	assert.Equal(t, job.Emptied, pulled.Recs[0].Kind)
	assert.Empty(t, pulled.Recs[0].Value)
	assert.Empty(t, pulled.Recs[0].Parents)
	assert.Equal(t, before.Recs[0].Stamp(), pulled.Recs[0].Stamp(), "id and stamp are as they were")
	assert.Equal(t, before.Recs[1], pulled.Recs[1])
	sum := uint64(0)
	for _, r := range pulled.Recs {
		sum += sync.Digest(r)
	}
	assert.Equal(t, sync.FormatDigest(sum), pulled.Digest,
		"phones with the operation and phones without it add up to the same")
	records := all(t, in)
	assert.Equal(t, before.Recs[0], records[0], "the log itself is as it was")

	here := post(now)
	here.Cursor = sync.Cursor{Epoch: before.Epoch, Seq: before.Seq, Hash: before.Hash}
	assert.False(t, serve(t, in, helper, here, now).Rewound, "cursors stay good")

	here.Heal, here.Cursor = pulled.Recs[:1], sync.Cursor{}
	assert.Equal(t, "ok", results(serve(t, in, helper, here, now)), "known already")
	restored := open(t, "job1")
	assert.Equal(t, "denied", results(serve(t, restored, lead, here, now)), "the emptied record is not a record")
	assert.Equal(t, "invalid", results(serve(t, restored, owner, here, now)), "not from the owner either")
	here.Heal = append([]job.Rec{records[2]}, records[:2]...)
	assert.Equal(t, "ok ok ok", results(serve(t, restored, lead, here, now+day)),
		"phones with the real record bring it back")
	assert.Equal(t, job.Emptied, serve(t, restored, helper, post(now), now+day).Recs[1].Kind, "it stays set aside")

	require.Equal(t, "ok", results(serve(t, in, owner, post(now+1, setAside(2, "bad", false)), now+1)))
	assert.Equal(t, before.Recs[0], serve(t, in, helper, post(now), now+1).Recs[0], "restored")
	assert.Equal(t, "ok", results(serve(t, in, owner, post(now+2, setAside(3, "asideop", true)), now+2)),
		"an unknown operation may arrive later")
}

// unsafeRecord checks that the server never sends an unsafe record that an older build accepted, set aside or not.
func unsafeRecord(t *testing.T, open Open) {
	in := open(t, "job1")
	deep := tick("deep", "a", 1, now)
	deep.Kind, deep.Value = "wave", json.RawMessage(strings.Repeat("[", 9000)+strings.Repeat("]", 9000))
	rec := job.Rec{Op: deep, Effective: now, Seq: 1, Author: helper.Author, MAC: "seal"}
	require.NoError(t, in(func(l server.Ledger) error {
		require.NoError(t, l.Append(rec, hash(1), ""))
		head, err := l.Head()
		require.NoError(t, err)
		head.Seq, head.Count, head.Hash, head.Digest = 1, 1, hash(1), sync.Digest(rec)
		return l.SetHead(head)
	}))
	resp := serve(t, in, helper, post(now, tick("good", "b", 1, now)), now)
	assert.Equal(t, "ok", results(resp))
	require.Len(t, resp.Recs, 2)
	assert.Equal(t, job.Emptied, resp.Recs[0].Kind)
	assert.Equal(t, sync.FormatDigest(sync.Digest(resp.Recs[0])+sync.Digest(resp.Recs[1])), resp.Digest)
	raw, err := json.Marshal(resp)
	require.NoError(t, err)
	_, err = sync.DecodeResponse(raw)
	assert.NoError(t, err)
	assert.Equal(t, "invalid", results(serve(t, open(t, "job1"), owner, post(now, deep), now)))
	heal := post(now)
	heal.Heal = []job.Rec{rec}
	assert.Equal(t, "invalid", results(serve(t, open(t, "job1"), owner, heal, now)),
		"nor as a healing record")
	closed := helper
	closed.Closed, closed.ClosedAt = sync.Revoked, now-hour
	set := tick("set", "a", 2, now)
	set.Value = deep.Value
	assert.Equal(t, "invalid", results(serve(t, open(t, "job1"), closed, post(now, set), now)), "nor into the quarantine")
	held := server.Held{Op: deep, Author: helper.Author, Session: "s", At: now, Proposed: now}
	assert.ErrorIs(t, open(t, "job1")(func(l server.Ledger) error { return server.Release(l, held, now) }), job.ErrInvalid,
		"nor out of the quarantine")
}

func restampsAreBounded(t *testing.T, open Open) {
	in := open(t, "job1")
	require.NoError(t, in(func(l server.Ledger) error {
		register := "card/make/door\x00done"
		for n := range server.MaxRestamps {
			require.NoError(t, l.AddRestamp(register, server.Restamp{ID: fmt.Sprint(n), Old: 1, New: 2}))
		}
		return nil
	}))
	before := open(t, "job1")
	serve(t, before, helper, post(now, tick("x", "a", 1, now-hour)), now)
	serve(t, in, helper, post(now+day, tick("x", "a", 1, now+day)), now+day)
	req := post(now + day)
	req.Heal = all(t, before)
	serve(t, in, lead, req, now+day)
	require.NoError(t, in(func(l server.Ledger) error {
		moved, err := l.Restamps("card/make/door\x00done")
		assert.Len(t, moved, server.MaxRestamps)
		return err
	}))
}
