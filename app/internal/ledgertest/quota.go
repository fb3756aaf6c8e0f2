package ledgertest

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func counted(t *testing.T, open Open) {
	in := open(t, "job1")
	require.NoError(t, in(func(l server.Ledger) error {
		use, err := l.Used("hour/2/x")
		assert.Zero(t, use)
		for name, more := range map[string]server.Use{
			"hour/1/":  {Ops: 1, Bytes: 10},
			"hour/2/x": {Ops: 2, Bytes: 20},
			"hour/3/":  {Ops: 3, Bytes: 1 << 40},
			"total":    {Ops: 4, Bytes: 40},
		} {
			err = errors.Join(err, l.AddUse(name, more), l.AddUse(name, more))
		}
		return err
	}))
	require.NoError(t, in(func(l server.Ledger) error {
		uses, err := l.Uses("hour/")
		assert.Equal(t, map[string]server.Use{"hour/1/": {Ops: 2, Bytes: 20}, "hour/2/x": {Ops: 4, Bytes: 40},
			"hour/3/": {Ops: 6, Bytes: 1 << 41}}, uses)
		err = errors.Join(err, l.DropUse("hour/", "hour/3/"), l.AddUse("total", server.Use{Ops: -3, Bytes: -100}))
		left, usesErr := l.Uses("")
		assert.Equal(t, map[string]server.Use{"hour/3/": {Ops: 6, Bytes: 1 << 41}, "total": {Ops: 5}}, left,
			"never below zero; the end of the range stays")
		return errors.Join(err, usesErr)
	}))
}

// big returns an operation of about 20 kB, far larger than a tap makes.
func big(device string, number uint64, wall int64) job.Op {
	value, err := json.Marshal(strings.Repeat("x", 19_900))
	if err != nil {
		panic(err) // a string always encodes
	}
	return job.Op{ID: fmt.Sprintf("operation%sx%d", device, number), Device: device, Number: number, Version: 1,
		Kind: job.Set, Entity: "card/make/door", Field: "stands", Value: value, Wall: wall}
}

// flood sends count operations of a session, 40 in a request, and counts the results.
func flood(t *testing.T, in Transact, session server.Session, op func(number uint64) job.Op, from, count uint64,
	at int64) (map[sync.Result]uint64, sync.Response) {
	t.Helper()
	became := map[sync.Result]uint64{}
	var last sync.Response
	for n := from; n < from+count; {
		req := post(at)
		req.Waits, req.Max = true, 1
		for ; len(req.Ops) < 40 && n < from+count; n++ {
			req.Ops = append(req.Ops, op(n))
		}
		req.Device = req.Ops[0].Device
		last = serve(t, in, session, req, at)
		for _, a := range last.Acks {
			became[a.Result]++
		}
	}
	return became, last
}

func bigFrom(device string, wall int64) func(uint64) job.Op {
	return func(n uint64) job.Op { return big(device, n, wall) }
}

func addFrom(device string, wall int64) func(uint64) job.Op {
	return func(n uint64) job.Op {
		return job.Op{ID: fmt.Sprintf("operation%sx%d", device, n), Device: device, Number: n, Version: 1,
			Kind: job.Add, Entity: "card/make/door", Delta: 1, Wall: wall}
	}
}

// othersAreFree checks that the owner and another link can still write.
func othersAreFree(t *testing.T, in Transact, at int64) {
	t.Helper()
	for _, session := range []server.Session{owner, lead} {
		req := post(at, tick("by"+string(session.Author.Role)+fmt.Sprint(at), "by"+session.ID, uint64(at-now)+1, at))
		req.Waits = true
		assert.Equal(t, "ok", results(serve(t, in, session, req, at)), session.Author.Role)
	}
}

func linkHourBytes(t *testing.T, open Open) {
	in := open(t, "job1")
	at := now - now%hour + 10*60_000 // ten minutes past the hour
	became, last := flood(t, in, helper, bigFrom("a", at), 1, 280, at)
	assert.Greater(t, became[sync.OK], uint64(180), "4 MiB of them")
	assert.Less(t, became[sync.OK], uint64(215))
	assert.Equal(t, uint64(280), became[sync.OK]+became[sync.Later], "none is denied: the phone keeps the rest")
	assert.Equal(t, hour-10*60_000, last.Pause, "until the hour is over")
	assert.Len(t, all(t, in), int(became[sync.OK]))
	assert.Equal(t, uint64(len(all(t, in))), last.Count, "the phone still gets new records")
	require.NoError(t, in(func(l server.Ledger) error {
		filled, err := server.FilledBy(l, at, true)
		assert.Equal(t, []string{"l-bea"}, filled.LinksNearLimit(), "the owner can see who fills it")
		return err
	}))
	othersAreFree(t, in, at)

	again, last := flood(t, in, helper, bigFrom("a", at), 1, 280, at+hour)
	assert.Equal(t, map[sync.Result]uint64{sync.OK: 280}, again,
		"an hour later the rest is accepted")
	assert.Zero(t, last.Pause)
	require.NoError(t, in(func(l server.Ledger) error {
		filled, err := server.FilledBy(l, at+hour, true)
		assert.Equal(t, int64(280), filled.Links["l-bea"].Ops)
		assert.Equal(t, int64(280-became[sync.OK]), filled.Hour["l-bea"].Ops)
		assert.Equal(t, int64(1), filled.Owner.Ops)
		assert.Equal(t, int64(281), filled.Others.Ops)
		assert.Equal(t, filled.All, filled.Owner.Plus(filled.Others))
		assert.Empty(t, filled.LinksNearLimit(), "the hour is over")
		return err
	}))
	flood(t, in, helper, bigFrom("b", at), 1, 1, at+3*hour)
	require.NoError(t, in(func(l server.Ledger) error {
		hours, err := l.Uses("hour/")
		assert.Len(t, hours, 2, "past hours are deleted")
		return err
	}))
}

func linkHourOps(t *testing.T, open Open) {
	in := open(t, "job1")
	at := now - now%hour
	for session := range 12 { // twelve phones of one link come back with 500 operations each
		phone := helper
		phone.ID = fmt.Sprint("s-bea", session)
		became, _ := flood(t, in, phone, addFrom("phone"+fmt.Sprint(session), at), 1, 500, at)
		require.Equal(t, map[sync.Result]uint64{sync.OK: 500}, became)
	}
	became, _ := flood(t, in, helper, addFrom("one", at), 1, 3, at+hour-1)
	assert.Equal(t, map[sync.Result]uint64{sync.Later: 3}, became,
		"the limit counts all sessions of the link")
	othersAreFree(t, in, at+hour-1)
	became, _ = flood(t, in, helper, addFrom("one", at), 1, 3, at+hour)
	assert.Equal(t, map[sync.Result]uint64{sync.OK: 3}, became)
}

// use adds to a count what would take long to write.
func use(t *testing.T, in Transact, name string, more server.Use) {
	t.Helper()
	require.NoError(t, in(func(l server.Ledger) error { return l.AddUse(name, more) }))
}

func othersHour(t *testing.T, open Open) {
	in := open(t, "job1")
	at := now - now%hour
	serve(t, in, helper, post(at, tick("one", "a", 1, at)), at)
	name := ""
	require.NoError(t, in(func(l server.Ledger) error {
		hours, err := l.Uses("hour/")
		for n := range hours {
			if strings.HasSuffix(n, "/") {
				name = n
			}
		}
		return err
	}))
	require.NotEmpty(t, name)
	for kind, left := range map[string]server.Use{
		"operations": {Ops: server.OthersHour.Ops - 2},
		"bytes":      {Bytes: server.OthersHour.Bytes - 1000},
	} {
		use(t, in, name, left)
		req := post(at)
		req.Waits, req.Device = true, "b"
		for n := uint64(1); n <= 9; n++ {
			op := tick(kind+fmt.Sprint(n), "b"+kind, n, at)
			req.Ops = append(req.Ops, op)
		}
		got := serve(t, in, lead, req, at)
		assert.Equal(t, sync.OK, got.Acks[0].Result, kind)
		assert.Equal(t, sync.Later, got.Acks[8].Result, kind)
		assert.Equal(t, "ok", results(serve(t, in, owner, post(at, tick("o"+kind, "o"+kind, 1, at)), at)), kind)
		use(t, in, name, server.Use{Ops: -1 << 40, Bytes: -1 << 40})
	}
}

func linkTotal(t *testing.T, open Open) {
	in := open(t, "job1")
	accepted, hours, next := uint64(0), 0, uint64(1)
	for at := now; hours < 8; at, hours = at+hour, hours+1 {
		became, last := flood(t, in, helper, bigFrom("a", at), next, 240, at)
		accepted, next = accepted+became[sync.OK], next+240
		if became[sync.Denied] > 0 {
			assert.Equal(t, sync.WhyLinkFull, last.Acks[len(last.Acks)-1].Why, "the answer says whom to ask")
			break
		}
	}
	assert.Greater(t, accepted, uint64(780), "16 MiB of them")
	assert.Less(t, accepted, uint64(860))
	assert.GreaterOrEqual(t, hours, 3, "at 4 MiB an hour")
	othersAreFree(t, in, now+day)
	use(t, in, "total/link/l-bea", server.Use{Bytes: -1 << 40})
	became, _ := flood(t, in, helper, addFrom("n", now), 1, 1, now+day)
	assert.Equal(t, map[sync.Result]uint64{sync.OK: 1}, became)
	use(t, in, "total/link/l-bea", server.Use{Ops: server.LinkTotal.Ops})
	became, _ = flood(t, in, helper, addFrom("n", now), 2, 1, now+day)
	assert.Equal(t, map[sync.Result]uint64{sync.Denied: 1}, became, "operations are limited too")
}

func ownerRoom(t *testing.T, open Open) {
	for kind, row := range map[string]struct{ others, own server.Use }{
		"operations": {server.Use{Ops: server.OthersTotal.Ops}, server.Use{Ops: server.OwnerRoom.Ops}},
		"bytes":      {server.Use{Bytes: server.OthersTotal.Bytes}, server.Use{Bytes: server.OwnerRoom.Bytes}},
	} {
		in := open(t, "job1")
		serve(t, in, helper, post(now, tick("one", "a", 1, now)), now)
		use(t, in, "total/others", row.others)
		refused := serve(t, in, lead, post(now, tick("two", "b", 1, now)), now)
		assert.Equal(t, "denied", results(refused), kind)
		assert.Equal(t, sync.WhyOthersFull, refused.Acks[0].Why, kind)
		// Others filled the log before there were limits.
		require.NoError(t, in(func(l server.Ledger) error {
			head, err := l.Head()
			head.Count, head.Bytes = head.Count+server.MaxLogOps, head.Bytes+server.MaxLogBytes
			return errors.Join(err, l.SetHead(head))
		}))
		assert.Equal(t, "ok", results(serve(t, in, owner, post(now, tick("three", "c", 1, now)), now)),
			"%s: the owner always has room", kind)
		use(t, in, "total/owner", row.own)
		refused = serve(t, in, owner, post(now, tick("four", "c", 2, now)), now)
		assert.Equal(t, "denied", results(refused), kind)
		assert.Equal(t, sync.WhyFull, refused.Acks[0].Why, kind)
		require.NoError(t, in(func(l server.Ledger) error { // restore the head for the check at the end
			head, err := l.Head()
			head.Count, head.Bytes = head.Count-server.MaxLogOps, head.Bytes-server.MaxLogBytes
			return errors.Join(err, l.SetHead(head))
		}))
	}
}

func healingHasNoHourlyLimit(t *testing.T, open Open) {
	before := open(t, "job1")
	at := now - now%hour
	_, _ = flood(t, before, helper, bigFrom("a", at), 1, 150, at)
	held := all(t, before)
	in := open(t, "job1") // the server lost all of it
	became, _ := flood(t, in, helper, bigFrom("b", at), 1, 240, at)
	require.Positive(t, became[sync.Later], "the hour is used up")
	for n := 0; n < len(held); n += 40 {
		req := post(at)
		req.Heal = held[n:min(n+40, len(held))]
		for _, a := range serve(t, in, lead, req, at).Acks {
			require.Equal(t, sync.OK, a.Result)
		}
	}
	assert.Len(t, all(t, in), int(became[sync.OK])+150)
	require.NoError(t, in(func(l server.Ledger) error {
		filled, err := server.FilledBy(l, at, true)
		assert.Equal(t, int64(became[sync.OK])+150, filled.Links["l-bea"].Ops, "it counts for its author")
		assert.Equal(t, int64(became[sync.OK]), filled.Hour["l-bea"].Ops, "but not in this hour")
		assert.Zero(t, filled.Links["l-ines"])
		return err
	}))
}

func earlierPhones(t *testing.T, open Open) {
	in := open(t, "job1")
	became, _ := flood(t, in, helper, bigFrom("a", now), 1, 200, now)
	for n := uint64(201); became[sync.Later] == 0; n++ {
		became, _ = flood(t, in, helper, bigFrom("a", now), n, 1, now)
	}
	had := len(all(t, in))
	req := post(now, tick("late", "b", 1, now)) // does not set Waits
	err := in(func(l server.Ledger) error {
		_, err := server.Serve(l, helper, req, now)
		return err
	})
	var later *server.LaterError
	require.ErrorAs(t, err, &later)
	assert.Positive(t, later.Pause)
	assert.LessOrEqual(t, later.Pause, hour)
	assert.Len(t, all(t, in), had)
	known := post(now, big("a", 1, now), tick("late", "b", 1, now))
	assert.Equal(t, "ok later", results(serve(t, in, helper, known, now)),
		"known operations are acknowledged, and the rest stays in the outbox")
	assert.False(t, serve(t, in, helper, post(now), now).Rewound, "a request without operations is answered")
}

func heldByLink(t *testing.T, open Open) {
	in := open(t, "job1")
	at := now
	count := map[sync.Result]int{}
	var held []server.Held
	for session := range 6 {
		closed := helper
		closed.ID, closed.Closed, closed.ClosedAt = fmt.Sprint("s-bea", session), sync.Revoked, now
		device := fmt.Sprint("phone", session)
		for n := uint64(1); n <= server.MaxHeldOps; n++ {
			op := addFrom(device, at)(n)
			op.Entity = "card/a"
			result := serve(t, in, closed, post(at, op), at).Acks[0].Result
			if count[result]++; result == sync.Quarantined {
				held = append(held, server.Held{Op: op, Author: closed.Author, Session: closed.ID})
			}
		}
	}
	assert.LessOrEqual(t, int64(count[sync.Quarantined]), server.HeldLink.Ops)
	assert.Positive(t, count[sync.Denied], "however many sessions the link has")
	other := lead
	other.Closed, other.ClosedAt = sync.Revoked, now
	assert.Equal(t, "quarantined", results(serve(t, in, other, post(at, tick("other", "z", 1, at)), at)),
		"another link has its own limit")
	require.NoError(t, in(func(l server.Ledger) error {
		for _, h := range held[:100] {
			if err := server.CountHeld(l, h, false); err != nil {
				return err
			}
		}
		return nil
	}))
	closed := helper
	closed.ID, closed.Closed, closed.ClosedAt = "s-more", sync.Revoked, now
	assert.Equal(t, "quarantined", results(serve(t, in, closed, post(at, tick("more", "y", 1, at)), at)),
		"decided operations make room")
}

func countedAgain(t *testing.T, open Open) {
	in := open(t, "job1")
	serve(t, in, owner, post(now, tick("one", "o", 1, now)), now)
	_, _ = flood(t, in, helper, addFrom("a", now), 1, 30, now)
	before := map[string]server.Use{}
	require.NoError(t, in(func(l server.Ledger) (err error) {
		if before, err = l.Uses("total/"); err != nil {
			return err
		}
		return l.DropUse("", "~") // as an earlier build left it
	}))
	require.Len(t, before, 3)
	require.NoError(t, in(func(l server.Ledger) error {
		filled, err := server.FilledBy(l, now, true)
		assert.Equal(t, before["total/link/l-bea"], filled.Links["l-bea"],
			"the owner can see who filled it before anything new arrives")
		return err
	}))
	serve(t, in, owner, post(now, tick("two", "o", 2, now)), now)
	require.NoError(t, in(func(l server.Ledger) error {
		after, err := l.Uses("total/")
		assert.Equal(t, before["total/link/l-bea"], after["total/link/l-bea"])
		assert.Equal(t, before["total/others"], after["total/others"])
		assert.Equal(t, int64(2), after["total/owner"].Ops)
		filled, filledErr := server.FilledBy(l, now, true)
		assert.Equal(t, filled.All, filled.Owner.Plus(filled.Others))
		return errors.Join(err, filledErr)
	}))
}
