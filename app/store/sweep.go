package store

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"sort"

	"go.etcd.io/bbolt"
)

const (
	sessionMS = int64(400 * 24 * 60 * 60 * 1000) // a device not seen for so long has lost its cookie
	codesEach = 20                               // install codes of a session; the typed one is not counted
)

// sweep deletes expired install codes and invites, and devices that were not seen for 400 days.
func (s *Store) sweep() error {
	err := s.update(func(tx *bbolt.Tx, _ *commit) error {
		if err := s.sweepSessions(tx); err != nil {
			return err
		}
		return s.sweepCodes(tx)
	})
	if err != nil {
		return err
	}
	return sweepInvites(filepath.Join(s.dir, invitesName), s.options.Now(), invitesKept)
}

func (s *Store) sweepSessions(tx *bbolt.Tx) error {
	var gone []string
	err := s.sessions(tx, func(hash string, row sessionRow) error {
		if row.unseen(s.options.Now()) {
			gone = append(gone, hash)
		}
		return nil
	})
	return forget(tx.Bucket(bucketSessions), gone, err)
}

// unseen reports whether a device was last seen so long ago that its cookie has expired.
func (r sessionRow) unseen(now int64) bool { return now-max(r.Seen, r.Created) >= sessionMS }

// sweepCodes deletes expired codes, and all but the newest of each session.
func (s *Store) sweepCodes(tx *bbolt.Tx) error {
	type code struct {
		hash string
		ends int64
	}
	var gone []string
	bySession := map[string][]code{}
	err := tx.Bucket(bucketCodes).ForEach(func(key, raw []byte) error {
		var row codeRow
		if err := json.Unmarshal(raw, &row); err != nil {
			return fmt.Errorf("%w: an install code: %w", ErrDamaged, err)
		}
		switch {
		case s.options.Now() >= row.Ends:
			gone = append(gone, string(key))
		case !row.Typed: // there is one of a session, and its end comes first
			bySession[row.Session] = append(bySession[row.Session], code{string(key), row.Ends})
		}
		return nil
	})
	for _, codes := range bySession {
		sort.Slice(codes, func(a, b int) bool { return codes[a].ends > codes[b].ends })
		for i := codesEach; i < len(codes); i++ {
			gone = append(gone, codes[i].hash)
		}
	}
	return forget(tx.Bucket(bucketCodes), gone, err)
}

func forget(b *bbolt.Bucket, keys []string, err error) error {
	for _, key := range keys {
		if err == nil {
			err = b.Delete([]byte(key))
		}
	}
	return err
}
