package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReusedOperationID(t *testing.T) {
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
		{"the same operation again", here, bea, bea, here, sync.OK},
		{"the same from somebody else", here, spy, bea, here, sync.OK},
		{"the same with other spaces", spelled, spy, bea, here, sync.OK},
		{"another from the same person, as of a repeated form", here, bea, bea, other, sync.OK},
		{"another from somebody else", here, spy, bea, other, sync.Denied},
	} {
		t.Run(row.name, func(t *testing.T) {
			records := newServer()
			hand := func(by job.Author, op job.Op) sync.Ack {
				return send(t, records, server.Session{Author: by}, start, nil, op)[0]
			}
			require.Equal(t, sync.OK, hand(row.by, row.first).Result)
			assert.Equal(t, row.want, hand(row.as, row.then).Result)
		})
	}
}

// An insider reuses the id of an operation that a restored server has lost, before a phone that made it or has its
// record comes back. The job has the insider's operation; the lost one is on every phone's list of problems.
func TestLostOperationIsNotedIfItsIDIsTaken(t *testing.T) {
	for _, shared := range []bool{true, false} {
		for _, killed := range []bool{true, false} {
			d, other := newDevice(t, newServer()), newDevice(t, nil)
			other.records, other.as = d.records, server.Session{ID: "ines",
				Author: job.Author{Role: job.Lead, Name: "Ines", Link: "link2"}}
			for _, mine := range []*device{d, other} {
				step, err := mine.SetAuthor(mine.as.Author)
				require.NoError(t, err)
				mine.save(t, step)
			}
			backup := d.records.Clone()
			op := d.act(t, job.Put(door, "done", true))[0]
			if shared {
				d.exchange(t)
				other.exchange(t)
			}
			forged := job.Op{ID: op.ID, Device: "spy", Number: 1, Version: 1, Kind: job.Add, Entity: door,
				Delta: 999, Wall: start}
			spy := server.Session{ID: "spy", Author: job.Author{Role: job.Helper, Name: "Spy", Link: "link9"}}
			require.Equal(t, sync.OK, send(t, backup, spy, start, nil, forged)[0].Result)
			backup.SetEpoch("epoch2")
			d.records, other.records = backup, backup
			phones := []*device{d}
			if shared {
				phones = append(phones, other)
			}
			for _, mine := range phones {
				req := mine.request(t)
				mine.receive(t, req, mine.answer(t, req))
				if killed {
					mine.open(t)
				}
				for range 4 {
					mine.exchange(t)
				}
				require.Len(t, mine.Notes(), 1, "shared %v, killed %v", shared, killed)
				note := mine.Notes()[0]
				assert.Equal(t, "true", string(note.Op.Value))
				assert.Equal(t, sync.WhyIDTaken, note.Why)
				assert.Equal(t, map[bool]phone.NoteKind{true: phone.NoteRefused, false: phone.NoteDenied}[shared], note.Kind)
				status := mine.Status(log)
				assert.False(t, status.Recovering)
				assert.Zero(t, status.Waiting)
				assert.EqualValues(t, 999, mine.made(t))
			}
		}
	}
}
