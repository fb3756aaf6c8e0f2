package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"strings"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// photoKeptMS is how long the server keeps the bytes of a photo that nobody shares any more: a day. Who restores the
// photo later has them on their phone, which sends them again.
const photoKeptMS = int64(24 * 60 * 60 * 1000)

// photoGoneMS is how long phones keep a photo that was removed, for who restores it: as long as a deleted job.
const photoGoneMS = RestorableMS

// PhotoWanted is a shared photo of which the server lacks bytes.
type PhotoWanted struct {
	Job, Hash string
	Have      int
}

// PhotoGone is a photo that a phone drops: it was removed for so long that nobody restores it, or is not for its
// person.
type PhotoGone struct{ Job, Hash string }

// Photos returns what a phone may send of photos, and which it drops, over all jobs that the session sees. It is empty
// for a closed session. First it drops bytes that nobody shares any more.
func (s *Store) Photos(session Session) (wanted []PhotoWanted, gone []PhotoGone, err error) {
	if err := s.sweepPhotos(); err != nil && !errors.Is(err, ErrDirectory) { // a full disk
		return nil, nil, err
	}
	err = s.db.View(func(tx *bbolt.Tx) error {
		current, err := s.refresh(tx, session)
		if err != nil || current.Closed != "" {
			return err
		}
		return tx.Bucket(bucketJobs).ForEach(func(key, _ []byte) error {
			id := string(key)
			if current.Job != "" && current.Job != id {
				return nil
			}
			if at, _, err := s.deletedAt(tx, id); err != nil || at > 0 {
				return err
			}
			j, err := s.photosOf(tx, id)
			if err != nil {
				return err
			}
			gone = append(gone, s.goneIn(&j, current)...)
			if !current.Role.May(job.Set, "photo/x") {
				return nil
			}
			for _, p := range j.SharedPhotos() {
				there, _, err := photoIn(tx, id, p.Hash)
				if err != nil {
					return err
				}
				if !there.Whole {
					wanted = append(wanted, PhotoWanted{id, p.Hash, there.Have})
				}
			}
			return nil
		})
	})
	return wanted, gone, err
}

// goneIn lists the photos of a job that a phone of the session drops.
func (s *Store) goneIn(j *job.Job, session Session) (gone []PhotoGone) {
	stays := map[string]bool{}
	for i := range j.Photos {
		if p := &j.Photos[i]; j.ShowsPhoto(p, session.Role, session.Name) {
			stays[p.Hash] = true
		}
	}
	for _, p := range j.RemovedPhotos() {
		if s.options.Now()-p.At < photoGoneMS && j.ShowsPhoto(&p.Photo, session.Role, session.Name) {
			stays[p.Hash] = true
		}
	}
	add := func(hash string) {
		if !stays[hash] {
			gone, stays[hash] = append(gone, PhotoGone{j.ID, hash}), true
		}
	}
	for _, p := range j.Photos {
		add(p.Hash)
	}
	for _, p := range j.RemovedPhotos() {
		add(p.Hash)
	}
	return gone
}

// sweepPhotos deletes the bytes of photos that were not shared for a day.
func (s *Store) sweepPhotos() error {
	type place struct{ job, key string }
	var due []place
	err := s.db.View(func(tx *bbolt.Tx) error {
		all := tx.Bucket(bucketPhotos)
		if all == nil {
			return nil
		}
		return all.ForEachBucket(func(name []byte) error {
			id := string(name)
			if tx.Bucket(bucketJobs).Get(name) == nil {
				return nil // goes with its job
			}
			j, err := s.photosOf(tx, id)
			if err != nil {
				return err
			}
			last := lastShared(&j)
			return all.Bucket(name).ForEach(func(key, raw []byte) error {
				_, hash, _ := strings.Cut(string(key), "/")
				if len(raw) < timeBytes {
					return fmt.Errorf("%w: photo %s", ErrDamaged, hash)
				}
				at := max(last[hash], int64(binary.BigEndian.Uint64(raw)))
				if s.options.Now()-at >= photoKeptMS {
					due = append(due, place{id, string(key)})
				}
				return nil
			})
		})
	})
	if err != nil || len(due) == 0 {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error {
		for _, d := range due {
			if b := tx.Bucket(bucketPhotos).Bucket([]byte(d.job)); b != nil {
				if err := b.Delete([]byte(d.key)); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

// forever is later than any sweep.
const forever = int64(1) << 60

// lastShared returns until when each photo of a job was stored with it, by its hash: [forever] for those that are.
func lastShared(j *job.Job) map[string]int64 {
	last := map[string]int64{}
	for _, p := range j.RemovedPhotos() {
		last[p.Hash] = max(last[p.Hash], p.At)
	}
	for _, p := range j.Photos {
		if readings := j.State.Register("photo/"+p.ID, "shared").Readings; len(readings) > 0 {
			last[p.Hash] = max(last[p.Hash], readings[0].Effective)
		}
	}
	for _, p := range j.SharedPhotos() {
		last[p.Hash] = forever
	}
	return last
}
