package ledgertest

import (
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func pages(t *testing.T, open Open) {
	in := open(t, "job1")
	for n := 1; n <= sync.MaxRecs+200; n += 400 {
		var ops []job.Op
		for i := n; i < n+400; i++ {
			ops = append(ops, job.Op{ID: fmt.Sprintf("operation-%d", i), Device: "a", Number: uint64(i), Version: 1,
				Kind: job.Add, Entity: "card/make/door", Delta: 1, Wall: now})
		}
		req := post(now, ops...)
		req.Max = 1
		resp := serve(t, in, helper, req, now)
		require.Len(t, resp.Recs, 1, "as few as the phone wants")
		require.True(t, resp.More)
	}
	first := serve(t, in, helper, post(now), now)
	require.Len(t, first.Recs, sync.MaxRecs)
	assert.True(t, first.More)
	assert.Equal(t, uint64(sync.MaxRecs), first.Seq)
	next := post(now)
	next.Cursor = sync.Cursor{Epoch: first.Epoch, Seq: first.Seq, Hash: first.Hash}
	rest := serve(t, in, helper, next, now)
	assert.Len(t, rest.Recs, 200)
	assert.False(t, rest.More)
	assert.False(t, rest.Rewound)
	sum := uint64(0)
	for _, r := range append(first.Recs, rest.Recs...) {
		sum += sync.Digest(r)
	}
	assert.Equal(t, sync.FormatDigest(sum), rest.Digest)
	assert.Equal(t, uint64(sync.MaxRecs+200), rest.Count)
	next.Cursor = sync.Cursor{Epoch: rest.Epoch, Seq: rest.Seq, Hash: rest.Hash}
	end := serve(t, in, helper, next, now)
	assert.Empty(t, end.Recs)
	assert.Equal(t, rest.Hash, end.Hash)
}

func rewound(t *testing.T, open Open) {
	in := open(t, "job1")
	at := serve(t, in, helper, post(now, tick("one", "a", 1, now), tick("two", "a", 2, now)), now)
	here := sync.Cursor{Epoch: at.Epoch, Seq: at.Seq, Hash: at.Hash}
	for _, row := range []struct {
		name   string
		cursor sync.Cursor
		want   bool
	}{
		{"at the head", here, false},
		{"at the beginning", sync.Cursor{}, false},
		{"at the beginning of this epoch", sync.Cursor{Epoch: here.Epoch}, false},
		{"another epoch", sync.Cursor{Epoch: "other", Seq: 2, Hash: here.Hash}, true},
		{"farther than the log", sync.Cursor{Epoch: here.Epoch, Seq: 3, Hash: here.Hash}, true},
		{"another history", sync.Cursor{Epoch: here.Epoch, Seq: 2, Hash: "another"}, true},
		{"a place without an epoch", sync.Cursor{Seq: 2, Hash: here.Hash}, true},
	} {
		req := post(now, tick("new", "b", 1, now))
		req.Cursor = row.cursor
		if row.want {
			resp := serve(t, in, helper, req, now)
			assert.True(t, resp.Rewound, row.name)
			assert.Empty(t, resp.Recs, row.name)
			assert.Empty(t, resp.Acks, "%s: the phone heals the server first", row.name)
			assert.Len(t, all(t, in), 2, row.name)
			continue
		}
		req.Ops = nil
		assert.False(t, serve(t, in, helper, req, now).Rewound, row.name)
	}
}

func healing(t *testing.T, open Open) {
	before := open(t, "job1")
	serve(t, before, helper, post(now, tick("one", "a", 1, now-hour), tick("two", "a", 2, now)), now)
	held := all(t, before)
	heal := func(recs ...job.Rec) sync.Request {
		req := post(now + day)
		req.Heal = recs
		return req
	}
	in := open(t, "job1") // the server lost all of it
	assert.Equal(t, "ok ok", results(serve(t, in, lead, heal(held...), now+day)))
	again := serve(t, in, lead, heal(held...), now+day)
	assert.Equal(t, "ok ok", results(again))
	got := all(t, in)
	require.Len(t, got, 2)
	for i := range got {
		assert.Equal(t, held[i].Effective, got[i].Effective, "the original stamp")
		assert.Equal(t, held[i].Author, got[i].Author, "the original author")
		assert.Equal(t, held[i].MAC, got[i].MAC)
	}

	for name, forge := range map[string]func(*job.Rec){
		"value":  func(r *job.Rec) { r.Value = []byte("false") },
		"stamp":  func(r *job.Rec) { r.Effective++ },
		"author": func(r *job.Rec) { r.Author.Name = "Owner" },
		"seal":   func(r *job.Rec) { r.MAC = "" },
	} {
		forged := held[0]
		forge(&forged)
		in := open(t, "job1")
		assert.Equal(t, "denied", results(serve(t, in, lead, heal(forged), now+day)), name)
		assert.Empty(t, all(t, in), name)
		assert.Equal(t, "ok", results(serve(t, in, owner, heal(forged), now+day)),
			"%s: the owner may, in case the key is lost", name)
		assert.LessOrEqual(t, all(t, in)[0].Effective, now+day)
	}
	other := open(t, "job2")
	assert.Equal(t, "denied", results(serve(t, other, lead, heal(held[0]), now+day)), "a seal is valid for one log only")
	future := held[0]
	future.Effective = 1 << 61
	in = open(t, "job1")
	assert.Equal(t, "ok", results(serve(t, in, owner, heal(future), now+day)))
	assert.Equal(t, now+day, all(t, in)[0].Effective, "an unsealed record is not in the future")
}

// healingKeepsOrder tests this case: X was accepted, Y overruled it, the server lost both, and X came back as new with
// a much later stamp. Y must still overrule X, and so must operations whose author had seen Y.
func healingKeepsOrder(t *testing.T, open Open) {
	before := open(t, "job1")
	serve(t, before, helper, post(now, tick("x", "a", 1, now-3*hour)), now)
	serve(t, before, lead, post(now, tick("y", "b", 1, now-2*hour)), now)
	held := all(t, before)
	in := open(t, "job1")
	serve(t, in, helper, post(now+day, tick("x", "a", 1, now+day)), now+day)
	require.Greater(t, stampOf(t, in, "x"), held[1].Effective)
	req := post(now + day)
	req.Heal = held
	serve(t, in, lead, req, now+day)
	assert.Greater(t, stampOf(t, in, "y"), stampOf(t, in, "x"))
	serve(t, in, owner, post(now+day, tick("z", "c", 1, now-hour, "y")), now+day)
	assert.Greater(t, stampOf(t, in, "z"), stampOf(t, in, "y"))
}

func closedLinks(t *testing.T, open Open) {
	for _, row := range []struct {
		why        string
		before     string // result of an operation made before the link was closed
		afterwards string
	}{{sync.Revoked, "quarantined", "quarantined"}, {sync.Ended, "ok", "quarantined"}} {
		t.Run(row.why, func(t *testing.T) {
			in := open(t, "job1")
			serve(t, in, helper, post(now, tick("known", "a", 1, now-hour)), now)
			closed := helper
			closed.Closed, closed.ClosedAt = row.why, now
			req := post(now+day, tick("known", "a", 1, now-hour), tick("early", "a", 2, now-1), tick("late", "a", 3, now+hour),
				tick("builds", "a", 4, now-1, "late"))
			resp := serve(t, in, closed, req, now+day)
			assert.Equal(t, "ok "+row.before+" "+row.afterwards+" quarantined", results(resp),
				"an operation built on a held one is held too")
			assert.Equal(t, row.why, resp.Closed)
			assert.Empty(t, resp.Recs, "a closed link gets no records")
			assert.Equal(t, resp.Acks, serve(t, in, closed, req, now+2*day).Acks)
			notMine := tick("brief", "a", 5, now)
			notMine.Entity, notMine.Field, notMine.Value = "brief", "title", []byte(`"x"`)
			assert.Equal(t, "denied", results(serve(t, in, closed, post(now, notMine), now+day)))
		})
	}
	t.Run("release", func(t *testing.T) {
		in := open(t, "job1")
		closed := helper
		closed.Closed, closed.ClosedAt = sync.Revoked, now
		held := server.Held{Op: tick("late", "a", 1, now), Author: helper.Author, Session: "s", At: now, Proposed: now - hour}
		for range 2 {
			require.NoError(t, in(func(l server.Ledger) error { return server.Release(l, held, now+day) }))
		}
		recs := all(t, in)
		require.Len(t, recs, 1)
		assert.Equal(t, now-hour, recs[0].Effective, "stamped when it was sent")
		assert.Equal(t, helper.Author, recs[0].Author, "under its own author")
		assert.NotEmpty(t, recs[0].MAC)
	})
}

func quarantineLimit(t *testing.T, open Open) {
	in := open(t, "job1")
	closed := helper
	closed.Closed, closed.ClosedAt = sync.Revoked, now
	count := map[sync.Result]int{}
	for n := uint64(1); n <= 480; n++ {
		op := job.Op{ID: fmt.Sprintf("operation-%d", n), Device: "a", Number: n, Version: 1, Kind: job.Add,
			Entity: "card/make/a-door-garland-with-a-name-that-takes-its-share-of-the-room", Delta: 1, Wall: now}
		count[serve(t, in, closed, post(now, op), now).Acks[0].Result]++
	}
	require.NoError(t, in(func(l server.Ledger) error {
		ops, bytes, err := l.HeldBy(closed.ID)
		assert.Equal(t, count[sync.Quarantined], ops)
		assert.LessOrEqual(t, bytes, server.MaxHeldBytes)
		assert.Greater(t, bytes, server.MaxHeldBytes*9/10)
		return err
	}))
	assert.Positive(t, count[sync.Denied])
	assert.Equal(t, 480, count[sync.Denied]+count[sync.Quarantined])
}

func openAgain(t *testing.T, open Open) {
	in := open(t, "job1")
	req := post(now, tick("one", "a", 1, now))
	req.Closed = true
	resp := serve(t, in, helper, req, now)
	assert.True(t, resp.Open)
	assert.Empty(t, resp.Acks, "the phone starts again, with what it had sent")
	assert.Empty(t, all(t, in))
}
