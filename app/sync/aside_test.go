package sync_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ownerOf(t *testing.T, records *memory.Ledger) *device {
	owner := newDevice(t, records)
	owner.as = server.Session{ID: "owner", Author: job.Author{Role: job.Owner, Name: "Owner"}}
	return owner
}

func done(d *device) string {
	state, _ := d.State(log)
	return string(state.Register(door, "done").Value())
}

// A phone with the operation, one that pulls later, and one that was restarted show the same job with matching sums.
func TestSetAsideReachesEveryPhone(t *testing.T) {
	for _, row := range []struct {
		name string
		keep int // records between snapshots
	}{{"folded from records", 1000}, {"folded from a stored state", 1}} {
		t.Run(row.name, func(t *testing.T) {
			records := newServer()
			owner, holder := ownerOf(t, records), newDevice(t, records)
			holder.sizes.SnapshotEvery = row.keep
			holder.open(t)
			holder.act(t, job.Put(door, "done", false))
			holder.exchange(t)
			var bad job.Op
			for n := range 9 { // more than a register keeps
				bad = holder.act(t, job.Put(door, "done", n%2 == 0))[0]
				holder.clock++
				holder.exchange(t)
			}
			require.Equal(t, "true", done(holder))
			recs, err := records.Read(1, 100)
			require.NoError(t, err)
			owner.clock += hour
			for _, r := range recs[1:] { // all but the first
				owner.act(t, job.SetAside(r.ID, false, true, "spoils the card")...)
			}
			owner.exchange(t)
			holder.clock += hour
			holder.exchange(t)
			holder.load(t)
			assert.Equal(t, "false", done(holder), "the value before the bad ones counts again")
			holder.open(t)
			assert.Equal(t, "false", done(holder), "after a restart as well")

			late := newDevice(t, records)
			late.exchange(t)
			assert.Equal(t, "false", done(late))
			for key, value := range late.disk {
				if strings.HasPrefix(key, "rec/") && strings.Contains(string(value), bad.ID) &&
					!strings.Contains(string(value), "aside/") {
					assert.NotContains(t, string(value), `"v"`, "the server does not send the value")
				}
			}
			for _, d := range []*device{owner, holder, late} {
				d.exchange(t)
				d.exchange(t)
				s := d.Status(log)
				assert.False(t, s.Recovering)
				assert.Empty(t, d.Notes(), "sums match")
				assert.Equal(t, s.Head, s.Seq)
			}
			owner.act(t, job.SetAside(bad.ID, false, false, "a mistake")[0])
			owner.exchange(t)
			holder.exchange(t)
			holder.load(t)
			assert.Equal(t, "true", done(holder), "restored")
		})
	}
}

// After a restore, phones with the operation and phones without it give the server back what it lost.
func TestSetAsideAfterARestore(t *testing.T) {
	for _, row := range []struct {
		name   string
		holder bool // a phone that has the operation comes first
		want   string
	}{{"a phone that has it comes first", true, "false"}, {"a phone without it comes first", false, "false"}} {
		t.Run(row.name, func(t *testing.T) {
			records := newServer()
			owner, holder := ownerOf(t, records), newDevice(t, records)
			holder.act(t, job.Put(door, "done", false))
			holder.exchange(t)
			backup := records.Clone()
			bad := holder.act(t, job.Put(door, "done", true))[0]
			holder.exchange(t)
			owner.act(t, job.SetAside(bad.ID, false, true, "")...)
			owner.exchange(t)
			owner.exchange(t)
			late := newDevice(t, records)
			late.exchange(t)
			backup.SetEpoch("epoch2")
			phones := []*device{late, holder}
			if row.holder {
				phones = []*device{holder, late}
			}
			for range 6 {
				for _, d := range phones {
					d.records = backup
					d.exchange(t)
					d.load(t)
				}
			}
			for _, d := range phones {
				assert.Equal(t, row.want, done(d))
				assert.False(t, d.Status(log).Recovering, "it does not wait for records that no phone has")
				assert.Empty(t, d.Notes())
			}
			recs, err := backup.Read(1, 100)
			require.NoError(t, err)
			assert.Equal(t, row.want, string(job.Fold(recs...).Register(door, "done").Value()))
		})
	}
}

// A server of an older build may send a record that could crash the app. The phone refuses the answer, says why, and
// keeps its operations.
func TestUnsafeAnswerIsRefused(t *testing.T) {
	deep := strings.Repeat("[", 9000) + strings.Repeat("]", 9000)
	for name, value := range map[string]string{"deep": deep, "long": `"` + strings.Repeat("x", 70<<10) + `"`,
		"half a character": `"\ud800"`, "wide": "[" + strings.Repeat("1,", 100_000) + "1]"} {
		t.Run(name, func(t *testing.T) {
			d := newDevice(t, newServer())
			d.act(t, job.Put(door, "done", true))
			req := d.request(t)
			rec := job.Rec{
				Op: job.Op{ID: "operation1", Device: "x", Number: 1, Version: 1, Kind: "wave", Entity: door,
					Value: json.RawMessage(value)},
				Effective: start,
				Seq:       1,
			}
			resp := sync.Response{V: 1, Epoch: "epoch1", Head: 1, Seq: 1, Recs: []job.Rec{rec}}
			if raw, err := json.Marshal(resp); err == nil {
				_, err = sync.DecodeResponse(raw)
				assert.Equal(t, name == "deep" || name == "half a character", err != nil, "%v", err)
			}
			step, err := d.Receive(log, req, resp, d.clock)
			require.ErrorIs(t, err, sync.ErrResponse)
			assert.Contains(t, err.Error(), "record 1 could crash this app")
			assert.True(t, step.Empty())
			assert.Len(t, d.Unsent(log), 1)
		})
	}
}

// A phone skips unsafe rows that an older build has stored, and pulls the log again.
func TestUnsafeStoredRowsAreSkipped(t *testing.T) {
	records := newServer()
	d := newDevice(t, records)
	d.act(t, job.Put(door, "done", true))
	d.exchange(t)
	deep := strings.Repeat("[", 9000) + strings.Repeat("]", 9000)
	mine := d.act(t, job.Count(door, 3))[0]
	for key := range d.disk {
		if strings.HasPrefix(key, "rec/") {
			d.disk[key] = []byte(fmt.Sprintf(`{"i":"operation1","d":"x","n":1,"k":"wave","e":"card/x","v":%s,"s":1,"eff":5}`,
				deep))
		}
		if strings.HasPrefix(key, "note/") {
			d.disk[key] = []byte(`{"kind":"denied","op":{"v":` + deep + `}}`)
		}
	}
	d.open(t)
	for range 3 {
		d.exchange(t)
		d.load(t)
	}
	assert.Equal(t, "true", done(d))
	_, there, err := records.ByID(mine.ID)
	require.NoError(t, err)
	assert.True(t, there, "the waiting operation was sent")
}

// A phone that opened its link again first writes under its old device id. It takes a new id and loses nothing.
func TestPhoneWithAForeignIDTakesANewOne(t *testing.T) {
	records := newServer()
	d := newDevice(t, records)
	d.act(t, job.Put(door, "done", true))
	d.exchange(t)
	old := d.Device()
	ops := d.act(t, job.Count(door, 3), job.Put(door, "done", false))
	d.as.ID = "bea, again"
	for range 3 {
		d.exchange(t)
	}
	assert.NotEqual(t, old, d.Device())
	for _, op := range ops {
		rec, there, err := records.ByID(op.ID)
		require.NoError(t, err)
		require.True(t, there)
		assert.Equal(t, d.Device(), rec.Device)
	}
	assert.Empty(t, d.Unsent(log))
	assert.Equal(t, "false", done(d))
}
