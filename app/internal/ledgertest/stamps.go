package ledgertest

import (
	"math"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
)

const (
	second = int64(1000)
	hour   = 3600 * second
	day    = 24 * hour
	now    = Created + 10*day // the server's clock in most rows
)

// stamps tests how the server stamps each operation once.
func stamps(t *testing.T, open Open) {
	for _, row := range []struct {
		name string
		off  int64 // phone clock minus server clock when it sends
		wall int64 // phone clock when the operation was made
		want int64
	}{
		{"right clock", 0, now - hour, now - hour},
		{"two seconds off are ignored", 2 * second, now - hour, now - hour},
		{"over two seconds off are corrected", 2*second + 1, now - hour, now - hour - 2*second - 1},
		{"days ahead", 5 * day, now + 5*day - hour, now - hour},
		{"days behind", -5 * day, now - 5*day - hour, now - hour},
		{"a time in the future", 0, now + second, now},
		{"a clock that jumped ahead before sending", 0, now + 300*day, now},
		{"a time before the job", 0, Created - day, Created},
		{"a phone in 1970", -now, 0, now},
		{"the lowest number", 0, math.MinInt64, Created},
		{"the highest number", 0, math.MaxInt64, now},
		{"a sending clock at the lowest", math.MinInt64 / 2, now, now},
		{"a sending clock at the highest", math.MaxInt64 / 2, now, Created},
	} {
		t.Run(row.name, func(t *testing.T) {
			in := open(t, "job1")
			serve(t, in, helper, post(now+row.off, tick("one", "a", 1, row.wall)), now)
			assert.Equal(t, row.want, stampOf(t, in, "one"))
		})
	}
	t.Run("after what its author had seen", func(t *testing.T) {
		in := open(t, "job1")
		serve(t, in, helper, post(now, tick("seen", "a", 1, now-hour)), now)
		serve(t, in, lead, post(now, tick("later", "b", 1, now-2*hour, "seen", "unknown")), now)
		assert.Equal(t, now-hour+1, stampOf(t, in, "later"))
	})
	t.Run("after the device's own last on the register", func(t *testing.T) {
		in := open(t, "job1")
		other := tick("elsewhere", "a", 2, now-5*hour)
		other.Field = "taken"
		other.Value = []byte(`"Bea"`)
		serve(t, in, helper, post(now, tick("first", "a", 1, now-hour), other, tick("second", "a", 3, now-3*hour)), now)
		assert.Equal(t, now-5*hour, stampOf(t, in, "elsewhere"), "another register is independent")
		assert.Equal(t, now-hour+1, stampOf(t, in, "second"))
	})
	t.Run("before the device's later operation, if it arrives late", func(t *testing.T) {
		in := open(t, "job1")
		serve(t, in, helper, post(now, tick("second", "a", 2, now-hour)), now)
		serve(t, in, helper, post(now, tick("first", "a", 1, now)), now)
		assert.Equal(t, now-hour-1, stampOf(t, in, "first"))
	})
	t.Run("a counter has no register", func(t *testing.T) {
		in := open(t, "job1")
		add := job.Op{ID: "operation-add1", Device: "a", Number: 1, Version: 1, Kind: job.Add,
			Entity: "card/make/door", Delta: 2, Wall: now}
		again := add
		again.ID, again.Number, again.Wall = "operation-add2", 2, now-hour
		serve(t, in, helper, post(now, add, again), now)
		assert.Equal(t, now-hour, stampOf(t, in, "add2"))
	})
}

func serverClockSetBack(t *testing.T, open Open) {
	in := open(t, "job1")
	serve(t, in, helper, post(now, tick("first", "a", 1, now)), now)
	resp := serve(t, in, lead, post(now, tick("second", "b", 1, now)), now-day) // the server's clock is a day behind
	assert.Equal(t, now, stampOf(t, in, "second"), "measured against the latest time that stamped here")
	assert.Equal(t, now-day, resp.Now, "the phone gets the clock's time")
	serve(t, in, owner, post(now-day, tick("third", "c", 1, now-day, "second")), now-day)
	assert.Equal(t, now+1, stampOf(t, in, "third"))
}

func sameRequestAgain(t *testing.T, open Open) {
	in := open(t, "job1")
	bad := tick("bad", "a", 2, now)
	bad.Field = ""
	notMine := tick("notmine", "a", 3, now)
	notMine.Entity = "piece/door"
	req := post(now, tick("one", "a", 1, now), bad, notMine, tick("one", "a", 1, now))
	first := serve(t, in, helper, req, now)
	assert.Equal(t, "ok invalid denied ok", results(first))
	again := serve(t, in, helper, req, now+hour)
	assert.Equal(t, first.Acks, again.Acks, "the same acknowledgements")
	assert.Len(t, all(t, in), 1, "nothing is stored twice")
	moved := tick("one", "other", 9, now)
	assert.Equal(t, "dup", results(serve(t, in, helper, post(now, moved), now)),
		"sent again under another device after a fork")
	assert.Len(t, all(t, in), 1)
	assert.Equal(t, first.Digest, again.Digest)
	assert.Equal(t, uint64(1), again.Count)
}

func forks(t *testing.T, open Open) {
	in := open(t, "job1")
	serve(t, in, helper, post(now, tick("one", "a", 1, now), tick("two", "a", 2, now)), now)
	copied := post(now, tick("mine", "a", 2, now), tick("next", "a", 3, now))
	assert.Equal(t, "fork fork", results(serve(t, in, helper, copied, now)),
		"operations after a fork wait with it, or they would be stamped first")
	other := tick("else", "b", 1, now)
	copied.Ops = append(copied.Ops, other)
	assert.Equal(t, "fork fork ok", results(serve(t, in, helper, copied, now)))
	for i := range copied.Ops {
		copied.Ops[i].Device = "c"
	}
	assert.Equal(t, "ok ok dup", results(serve(t, in, helper, copied, now)))
	assert.Less(t, stampOf(t, in, "mine"), stampOf(t, in, "next"))
	assert.Len(t, all(t, in), 5)
}

func refusals(t *testing.T, open Open) {
	in := open(t, "job1")
	set := func(entity, field, value string) job.Op {
		op := tick("probe", "a", 1, now)
		op.Entity, op.Field, op.Value = entity, field, []byte(value)
		return op
	}
	for _, row := range []struct {
		name    string
		session server.Session
		op      job.Op
		want    string
	}{
		{"a helper rewrites a piece", helper, set("piece/door", "name", `"x"`), "denied"},
		{"a helper rewrites a card", helper, set("card/make/door", "minutes", "5"), "denied"},
		{"a lead rewrites the brief", lead, set("brief", "title", `"x"`), "denied"},
		{"the client's contact in the shared log", owner, set("own/contact", "name", `"x"`), "invalid"},
		{"a value out of range", owner, set("piece/door", "length_mm", "-3"), "invalid"},
		{"no JSON", owner, set("piece/door", "name", `"x`), "invalid"},
		{"a session without a role", server.Session{ID: "s"}, set("card/make/door", "done", "true"), "denied"},
	} {
		assert.Equal(t, row.want, results(serve(t, in, row.session, post(now, row.op), now)), row.name)
	}
	assert.Empty(t, all(t, in))
	newer := tick("newer", "a", 9, now)
	newer.Kind, newer.Version, newer.Value = "wave", 7, []byte(`{"of":"a later version"}`)
	for _, session := range []server.Session{helper, lead} {
		refused := serve(t, in, session, post(now, newer), now)
		assert.Equal(t, "denied", results(refused), "an unknown kind")
		assert.Contains(t, refused.Acks[0].Why, "only the owner")
	}
	assert.Equal(t, "ok", results(serve(t, in, owner, post(now, newer), now)),
		"the owner's newer app works with this server")
	own := open(t, "job1"+sync.OwnSuffix)
	assert.ErrorIs(t, own(func(l server.Ledger) error {
		_, err := server.Serve(l, lead, post(now), now)
		return err
	}), sync.ErrPrivate)
	assert.Equal(t, "ok", results(serve(t, own, owner, post(now, set("own/contact", "name", `"x"`)), now)))
	brief := set("brief", "title", `"x"`)
	brief.ID = "operation-b"
	assert.Equal(t, "invalid", results(serve(t, own, owner, post(now, brief), now)))
}
