package sync_test

import (
	"fmt"
	"sort"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/require"
)

const (
	start = int64(1_800_000_000_000)
	hour  = int64(3_600_000)
	day   = 24 * hour
	log   = "readingroom"
	door  = "card/make/door"
)

// device is a phone with its disk and a server in memory.
type device struct {
	*phone.Phone
	disk    map[string][]byte
	clock   int64
	ids     int
	records *memory.Ledger
	as      server.Session
	sizes   phone.Options
}

func newServer() *memory.Ledger {
	return memory.New(log, "epoch1", []byte("a key for the tests"), start)
}

// send sends operations and healing records from a session and returns their acknowledgements.
func send(t testing.TB, records *memory.Ledger, who server.Session, now int64, heal []job.Rec,
	ops ...job.Op) []sync.Ack {
	t.Helper()
	req := sync.Request{V: sync.WireVersion, Device: "phone", Now: now, Ops: ops, Heal: heal}
	resp, err := server.Serve(records, who, req, now)
	require.NoError(t, err)
	return resp.Acks
}

func newDevice(t testing.TB, records *memory.Ledger) *device {
	t.Helper()
	d := &device{disk: map[string][]byte{}, clock: start + day, records: records,
		as: server.Session{ID: "bea", Author: job.Author{Role: job.Lead, Name: "Bea", Link: "link1"}}}
	d.open(t)
	return d
}

func (d *device) options() phone.Options {
	o := d.sizes
	o.Now = func() int64 { return d.clock }
	o.NewID = func() string { d.ids++; return fmt.Sprintf("id%p%06d", d, d.ids)[4:] }
	o.Jitter = func() float64 { return 0 }
	return o
}

// open starts the app from the disk, as after it was killed.
func (d *device) open(t testing.TB) {
	t.Helper()
	p, step, err := phone.Open(d.rows(phone.OpenRanges()), d.options())
	require.NoError(t, err)
	d.Phone = p
	d.save(t, step)
	step, err = p.Track(log)
	require.NoError(t, err)
	d.save(t, step)
	d.load(t)
}

func (d *device) load(t testing.TB) {
	t.Helper()
	for range 5 {
		wants := d.Wants(log)
		if len(wants) == 0 {
			return
		}
		step, err := d.Give(log, d.rows(wants))
		require.NoError(t, err)
		d.save(t, step)
	}
	require.Fail(t, "the phone wants more and more")
}

func (d *device) rows(ranges []phone.Range) []phone.Row {
	var rows []phone.Row
	for key, value := range d.disk {
		for _, r := range ranges {
			if r.Has(key) {
				rows = append(rows, phone.Row{Key: key, Value: value})
			}
		}
	}
	return rows
}

func (d *device) save(t testing.TB, step phone.Step) {
	t.Helper()
	if step.Empty() {
		return
	}
	require.Equal(t, phone.Revision(d.disk[phone.RowPhone]), step.If)
	for _, r := range step.Drop {
		for key := range d.disk {
			if r.Has(key) {
				delete(d.disk, key)
			}
		}
	}
	for _, key := range step.Delete {
		delete(d.disk, key)
	}
	for _, row := range step.Put {
		d.disk[row.Key] = row.Value
	}
	require.Equal(t, step.Rev, phone.Revision(d.disk[phone.RowPhone]))
}

func (d *device) act(t testing.TB, changes ...job.Change) []job.Op {
	t.Helper()
	ops, step, err := d.Write(log, changes...)
	require.NoError(t, err)
	d.save(t, step)
	return ops
}

func (d *device) request(t testing.TB) sync.Request {
	t.Helper()
	d.load(t)
	req, ok := d.Request(log, d.clock)
	require.True(t, ok)
	return req
}

func (d *device) answer(t testing.TB, req sync.Request) sync.Response {
	t.Helper()
	resp, err := server.Serve(d.records, d.as, req, start+day)
	require.NoError(t, err)
	return resp
}

func (d *device) receive(t testing.TB, req sync.Request, resp sync.Response) {
	t.Helper()
	step, err := d.Receive(log, req, resp, d.clock)
	require.NoError(t, err)
	d.save(t, step)
	d.load(t)
}

func (d *device) exchange(t testing.TB) {
	t.Helper()
	for n := 0; n == 0 || d.Behind(log); n++ {
		require.Less(t, n, 50, "the exchange never ends")
		req := d.request(t)
		d.receive(t, req, d.answer(t, req))
	}
}

func (d *device) keys(prefix string) []string {
	var keys []string
	for key := range d.disk {
		if len(key) >= len(prefix) && key[:len(prefix)] == prefix {
			keys = append(keys, key)
		}
	}
	sort.Strings(keys)
	return keys
}

func (d *device) made(t testing.TB) int64 {
	t.Helper()
	view, ok := d.State(log)
	require.True(t, ok)
	return view.Tally(door).Total()
}
