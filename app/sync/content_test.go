package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAnIDThatSomebodyElseTook(t *testing.T) {
	bea := job.Author{Role: job.Lead, Name: "Bea", Link: "link1"}
	spy := job.Author{Role: job.Helper, Name: "Spy", Link: "link9"}
	here := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Set, Entity: door, Field: "done",
		Value: []byte(`true`), Wall: start}
	other := here
	other.Value = []byte(`false`)
	spelled := here
	spelled.Value = []byte(` true`)
	for _, row := range []struct {
		name   string
		first  job.Op
		by, as job.Author
		then   job.Op
		want   sync.Result
	}{
		{"the same again", here, bea, bea, here, sync.OK},
		{"the same, let in anew", here, spy, bea, here, sync.OK},
		{"the same, spelled otherwise", spelled, spy, bea, here, sync.OK},
		{"another by the same person, as of a form that comes again", here, bea, bea, other, sync.OK},
		{"another by somebody else", here, spy, bea, other, sync.Denied},
	} {
		t.Run(row.name, func(t *testing.T) {
			server := newServer()
			hand := func(by job.Author, op job.Op) sync.Ack {
				resp, err := sync.Serve(server, sync.Session{Author: by},
					sync.Request{V: sync.WireVersion, Device: "phone", Now: start, Ops: []job.Op{op}}, start)
				require.NoError(t, err)
				return resp.Acks[0]
			}
			require.Equal(t, sync.OK, hand(row.by, row.first).Result)
			assert.Equal(t, row.want, hand(row.as, row.then).Result)
		})
	}
}

// An insider takes the id of what a restored server has lost, before the phone that made it, or one that has its
// record, comes back. The job has the insider's; what the id stood for is on every phone's list of what needs
// attention.
func TestWhatALostIDStoodForIsNoted(t *testing.T) {
	for _, shared := range []bool{true, false} {
		for _, killed := range []bool{true, false} {
			d, other := newDevice(t, newServer()), newDevice(t, nil)
			other.server, other.as = d.server, sync.Session{ID: "ines",
				Author: job.Author{Role: job.Lead, Name: "Ines", Link: "link2"}}
			for _, phone := range []*device{d, other} {
				step, err := phone.SetAuthor(phone.as.Author)
				require.NoError(t, err)
				phone.save(t, step)
			}
			backup := d.server.Clone()
			op := d.act(t, job.Put(door, "done", true))[0]
			if shared {
				d.exchange(t)
				other.exchange(t)
			}
			forged := job.Op{ID: op.ID, Device: "spy", Number: 1, Version: 1, Kind: job.Add, Entity: door,
				Delta: 999, Wall: start}
			spy := sync.Session{ID: "spy", Author: job.Author{Role: job.Helper, Name: "Spy", Link: "link9"}}
			resp, err := sync.Serve(backup, spy,
				sync.Request{V: sync.WireVersion, Device: "spy", Now: start, Ops: []job.Op{forged}}, start)
			require.NoError(t, err)
			require.Equal(t, sync.OK, resp.Acks[0].Result)
			backup.SetEpoch("epoch2")
			d.server, other.server = backup, backup
			phones := []*device{d}
			if shared {
				phones = append(phones, other)
			}
			for _, phone := range phones {
				req := phone.request(t)
				phone.receive(t, req, phone.answer(t, req))
				if killed {
					phone.open(t)
				}
				for range 4 {
					phone.exchange(t)
				}
				require.Len(t, phone.Notes(), 1, "shared %v, killed %v", shared, killed)
				note := phone.Notes()[0]
				assert.Equal(t, "true", string(note.Op.Value))
				assert.Equal(t, sync.WhyTaken, note.Why)
				assert.Equal(t, map[bool]sync.NoteKind{true: sync.NoteRefused, false: sync.NoteDenied}[shared], note.Kind)
				status := phone.Status(log)
				assert.False(t, status.Recovering)
				assert.Zero(t, status.Waiting)
				assert.EqualValues(t, 999, phone.made(t))
			}
		}
	}
}
