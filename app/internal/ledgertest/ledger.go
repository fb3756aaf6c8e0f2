package ledgertest

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func hash(n int) string { return fmt.Sprintf("%032d", n) }

func record(n uint64, id, device string, number uint64, effective int64) job.Rec {
	return job.Rec{Op: tick(id, device, number, effective), Effective: effective, Seq: n,
		Author: helper.Author, MAC: "seal"}
}

func recordsAreFound(t *testing.T, open Open) {
	in := open(t, "job1")
	require.NoError(t, in(func(l server.Ledger) error {
		head, err := l.Head()
		require.NoError(t, err)
		assert.Equal(t, "job1", l.Log())
		assert.NotEmpty(t, l.Key())
		assert.NotEmpty(t, head.Epoch)
		assert.Equal(t, server.Head{Epoch: head.Epoch, Created: Created}, head)
		for n := uint64(1); n <= 3; n++ {
			require.NoError(t, l.Append(record(n, fmt.Sprint("rec", n), "a", n, Created+int64(n)), hash(int(n)), "r"))
		}
		head.Seq, head.Hash, head.Digest, head.Count, head.Latest, head.Safe = 3, hash(3), 1<<63+5, 3, Created+9, 2
		return l.SetHead(head)
	}))
	require.NoError(t, in(func(l server.Ledger) error {
		head, err := l.Head()
		require.NoError(t, err)
		assert.Equal(t, uint64(1<<63+5), head.Digest, "all 64 bits")
		rec, found, err := l.ByID("operation-rec2")
		require.NoError(t, err)
		assert.True(t, found)
		assert.Equal(t, record(2, "rec2", "a", 2, Created+2), rec)
		for _, id := range []string{"operation-rec9", ""} {
			_, found, err = l.ByID(id)
			require.NoError(t, err)
			assert.False(t, found, "id %q", id)
		}
		for seq, want := range map[uint64]bool{0: false, 1: true, 3: true, 4: false, 1 << 40: false} {
			got, found, err := l.HashAt(seq)
			require.NoError(t, err)
			assert.Equal(t, want, found, "hash at %d", seq)
			assert.True(t, !found || got == hash(int(seq)))
		}
		for _, row := range []struct {
			from  uint64
			limit int
			want  int
		}{{0, 10, 3}, {1, 10, 3}, {2, 1, 1}, {3, 10, 1}, {4, 10, 0}, {1 << 50, 10, 0}} {
			recs, err := l.Read(row.from, row.limit)
			require.NoError(t, err)
			require.Len(t, recs, row.want, "from %d", row.from)
			if row.want > 0 {
				assert.Equal(t, max(1, row.from), recs[0].Seq)
			}
		}
		return nil
	}))
}

// count writes the number of records into the head, as a server does.
func count(t *testing.T, l server.Ledger, records uint64) {
	t.Helper()
	head, err := l.Head()
	require.NoError(t, err)
	head.Seq, head.Count = records, records
	require.NoError(t, l.SetHead(head))
}

func numbersKeepTheirOperation(t *testing.T, open Open) {
	require.NoError(t, open(t, "job1")(func(l server.Ledger) error {
		require.NoError(t, l.Append(record(1, "first", "a", 7, Created), hash(1), ""))
		require.NoError(t, l.Append(record(2, "second", "a", 7, Created), hash(2), ""))
		count(t, l, 2)
		id, found, err := l.ByNumber("a", 7)
		require.NoError(t, err)
		assert.True(t, found)
		assert.Equal(t, "operation-first", id)
		for _, other := range []struct {
			device string
			number uint64
		}{{"a", 8}, {"b", 7}, {"", 7}, {"a", 1 << 60}} {
			_, found, err := l.ByNumber(other.device, other.number)
			require.NoError(t, err)
			assert.False(t, found, other)
		}
		return nil
	}))
}

func lastOnRegister(t *testing.T, open Open) {
	require.NoError(t, open(t, "job1")(func(l server.Ledger) error {
		require.NoError(t, l.Append(record(1, "one", "a", 5, Created+50), hash(1), "r"))
		require.NoError(t, l.Append(record(2, "two", "a", 4, Created+90), hash(2), "r")) // arrived late, with a later stamp
		require.NoError(t, l.Append(record(3, "off", "a", 9, Created+99), hash(3), ""))
		count(t, l, 3)
		for _, row := range []struct {
			device, register string
			number           uint64
			effective        int64
		}{{"a", "r", 5, Created + 50}, {"a", "q", 0, 0}, {"b", "r", 0, 0}, {"a", "", 0, 0}} {
			number, effective, err := l.LastOn(row.device, row.register)
			require.NoError(t, err)
			assert.Equal(t, row.number, number, row)
			assert.Equal(t, row.effective, effective, row)
		}
		return nil
	}))
}

func restamps(t *testing.T, open Open) {
	require.NoError(t, open(t, "job1")(func(l server.Ledger) error {
		for _, r := range []server.Restamp{{ID: "x", Old: 1, New: 2}, {ID: "y", Old: 1, New: 3}, {ID: "x", Old: 1, New: 2}} {
			require.NoError(t, l.AddRestamp("r", r))
		}
		moved, err := l.Restamps("r")
		require.NoError(t, err)
		assert.Equal(t, []server.Restamp{{ID: "x", Old: 1, New: 2}, {ID: "y", Old: 1, New: 3}}, moved)
		moved, err = l.Restamps("other")
		require.NoError(t, err)
		assert.Empty(t, moved)
		return nil
	}))
}

func quarantine(t *testing.T, open Open) {
	in := open(t, "job1")
	held := server.Held{Op: tick("late", "a", 1, Created), Author: helper.Author, Session: "s",
		At: Created + 5, Proposed: Created, BeforeEnd: true}
	undone := errors.New("undone")
	require.ErrorIs(t, in(func(l server.Ledger) error {
		if _, memory := l.(*memory.Ledger); memory {
			return undone // memory has no transactions
		}
		return errors.Join(l.Hold(held), undone)
	}), undone)
	require.NoError(t, in(func(l server.Ledger) error {
		isHeld, err := l.IsHeld("operation-late")
		require.NoError(t, err)
		assert.False(t, isHeld, "a failed transaction changes nothing")
		return l.Hold(held)
	}))
	require.NoError(t, in(func(l server.Ledger) error {
		isHeld, err := l.IsHeld("operation-late")
		require.NoError(t, err)
		assert.True(t, isHeld)
		ops, bytes, err := l.HeldBy("s")
		require.NoError(t, err)
		raw, err := json.Marshal(held.Op)
		require.NoError(t, err)
		assert.Equal(t, 1, ops)
		assert.Equal(t, len(raw), bytes)
		ops, _, err = l.HeldBy(strings.Repeat("x", 40))
		require.NoError(t, err)
		assert.Zero(t, ops)
		return nil
	}))
}
