package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPhoneHealsARestoredServer(t *testing.T) {
	for _, announced := range []bool{true, false} {
		records := newServer()
		d := newDevice(t, records)
		d.sizes = phone.Options{MaxHeal: 3, MaxRecs: 4, SnapshotEvery: 5}
		d.open(t)
		d.act(t, job.Count(door, 1))
		d.exchange(t)
		backup := records.Clone()
		for range 11 {
			d.act(t, job.Count(door, 1))
			d.exchange(t)
		}
		if announced {
			backup.SetEpoch("epoch2")
		}
		d.records = backup
		d.act(t, job.Count(door, 1))
		req := d.request(t)
		d.receive(t, req, d.answer(t, req))
		assert.True(t, d.Status(log).Recovering)
		assert.EqualValues(t, 13, d.made(t), "nothing vanishes meanwhile")
		d.open(t) // killed during the recovery
		assert.EqualValues(t, 13, d.made(t))
		d.act(t, job.Count(door, 1))
		d.exchange(t)
		assert.EqualValues(t, 14, d.made(t))
		head, err := backup.Head()
		require.NoError(t, err)
		assert.EqualValues(t, 14, head.Count)
		assert.False(t, d.Status(log).Recovering)
		d.open(t)
		assert.EqualValues(t, 14, d.made(t))
		assert.Len(t, d.keys("rec/"), 14, "the earlier generation is gone")
		assert.Empty(t, d.Notes())
	}
}

func TestWithoutTheKeyOnlyTheOwnerHeals(t *testing.T) {
	records := newServer()
	d, owner := newDevice(t, records), newDevice(t, records)
	owner.as = server.Session{ID: "owner", Author: job.Author{Role: job.Owner, Name: "Owner"}}
	d.act(t, job.Count(door, 3))
	d.exchange(t)
	owner.act(t, job.Count(door, 4))
	owner.exchange(t)
	d.exchange(t)
	lost := memory.New(log, "epoch2", []byte("another key"), start)
	d.records, owner.records = lost, lost
	d.exchange(t)
	assert.EqualValues(t, 3, d.made(t), "its own are sent again")
	require.Len(t, d.Notes(), 1)
	assert.Equal(t, phone.NoteRefused, d.Notes()[0].Kind, "the owner's are kept as a note")
	assert.Equal(t, "Owner", d.Notes()[0].By.Name)
	owner.exchange(t)
	assert.EqualValues(t, 7, owner.made(t))
	d.exchange(t)
	assert.EqualValues(t, 7, d.made(t))
}

func TestWrongDigestIsRepairedOnceThenNoted(t *testing.T) {
	d := newDevice(t, newServer())
	d.act(t, job.Count(door, 3), job.Count(door, 4))
	d.exchange(t)
	damage := func(resp sync.Response) sync.Response {
		resp.Digest = "0123456789abcdef"
		return resp
	}
	for n := range 8 {
		d.act(t, job.Count(door, 1))
		req := d.request(t)
		d.receive(t, req, damage(d.answer(t, req)))
		assert.EqualValues(t, 8+n, d.made(t), "nothing is thrown away")
	}
	require.Len(t, d.Notes(), 1, "one report, and no endless repair")
	assert.Equal(t, phone.NoteMismatch, d.Notes()[0].Kind)
	d.exchange(t)
	assert.EqualValues(t, 15, d.made(t))
	req := d.request(t)
	d.receive(t, req, damage(d.answer(t, req)))
	assert.True(t, d.Status(log).Recovering, "after a match a mismatch is repaired again")
	d.exchange(t)
	assert.EqualValues(t, 15, d.made(t))
}

func TestLostAndDamagedRowsAreFetchedAgain(t *testing.T) {
	for name, damage := range map[string]func(map[string][]byte, []string){
		"a record is gone":    func(disk map[string][]byte, recs []string) { delete(disk, recs[len(recs)-1]) },
		"a record is damaged": func(disk map[string][]byte, recs []string) { disk[recs[len(recs)-1]] = []byte(`{"i":`) },
		"the snapshot is damaged": func(disk map[string][]byte, _ []string) {
			disk["snap/"+log] = []byte(`{"state":{"reg":null}}`)
		},
		"the snapshot is another": func(disk map[string][]byte, _ []string) {
			disk["snap/"+log] = []byte(`{"gen":9,"s":4,"state":null}`)
		},
		"the snapshot is gone": func(disk map[string][]byte, _ []string) { delete(disk, "snap/"+log) },
	} {
		t.Run(name, func(t *testing.T) {
			d := newDevice(t, newServer())
			d.sizes.SnapshotEvery = 4
			d.open(t)
			for range 7 {
				d.act(t, job.Count(door, 1))
				d.exchange(t)
			}
			require.NotEmpty(t, d.keys("snap/"))
			d.act(t, job.Count(door, 1))
			damage(d.disk, d.keys("rec/"))
			d.open(t)
			d.exchange(t)
			assert.EqualValues(t, 8, d.made(t))
			d.open(t)
			assert.EqualValues(t, 8, d.made(t))
		})
	}
	t.Run("an unreadable outbox row is kept and noted", func(t *testing.T) {
		d := newDevice(t, newServer())
		d.act(t, job.Count(door, 1))
		key := d.keys("out/")[0]
		d.disk[key] = []byte(`{"op":`)
		d.open(t)
		require.Len(t, d.Notes(), 1)
		assert.Equal(t, phone.NoteDamaged, d.Notes()[0].Kind)
		assert.Equal(t, key, d.Notes()[0].Key)
		assert.Contains(t, d.disk, key)
	})
}
