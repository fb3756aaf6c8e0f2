package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"go.etcd.io/bbolt"

	"garlandry/app/sync/server"
)

// keyFingerprint stores, in a database, the fingerprint of the key that sealed all its records.
var keyFingerprint = []byte("keyprint")

// fingerprintOf returns a key's fingerprint, which does not reveal the key.
func fingerprintOf(key []byte) string {
	sum := sha256.Sum256(append([]byte("garlandry workspace key\n"), key...))
	return hex.EncodeToString(sum[:16])
}

// keepSeals seals every record again if the workspace key is not the one that the database was sealed with: it was lost
// or replaced. A later check of seals then finds only good or altered records. A log whose hash chain is broken was
// altered, and keeps its seals.
func (s *Store) keepSeals() error {
	print := ""
	err := s.db.View(func(tx *bbolt.Tx) error {
		print = string(tx.Bucket(bucketMeta).Get(keyFingerprint))
		return nil
	})
	if err != nil || print == fingerprintOf(s.key) {
		return err
	}
	sealed := 0
	err = s.update(func(tx *bbolt.Tx, _ *commit) error {
		err := eachLog(tx, func(l *boltLedger, head server.Head) error {
			audit, err := l.attest(head, s.key, print == "")
			if err != nil {
				return nil // altered; a backup will say so
			}
			n, err := l.seal(s.key)
			sealed += n
			head.Bytes = audit.Bytes()
			return errors.Join(err, l.SetHead(head))
		})
		if err != nil {
			return err
		}
		return tx.Bucket(bucketMeta).Put(keyFingerprint, []byte(fingerprintOf(s.key)))
	})
	if err == nil && sealed > 0 {
		s.repairs = append(s.repairs, fmt.Sprintf("workspace.key is not the key that this data was sealed with. "+
			"%d records were sealed again with it. Records that only helpers' phones have "+
			"can no longer be verified; your own phones can still return them.", sealed))
	}
	return err
}

// seal seals the records of a log with the key, and returns how many had another seal.
func (l *boltLedger) seal(key []byte) (int, error) {
	recs := l.bucket.Bucket(bucketRecs)
	fresh := map[string][]byte{}
	err := recs.ForEach(func(place, raw []byte) error {
		rec, err := l.decode(raw)
		if err != nil || server.Verify(key, l.log, rec) {
			return err
		}
		if rec.MAC, err = server.Seal(key, l.log, rec); err != nil {
			return err
		}
		text, err := json.Marshal(rec)
		fresh[string(place)] = append(bytes.Clone(raw[:hashBytes]), text...)
		return err
	})
	for place, raw := range fresh {
		err = errors.Join(err, recs.Put([]byte(place), raw))
	}
	return len(fresh), err
}

// keyAtHand reads the workspace key of a directory, or else the one beside a backup; nil if there is none.
func keyAtHand(dir, backup string) (key []byte, beside bool, err error) {
	for _, place := range [...]string{dir, filepath.Dir(backup)} {
		key, err := os.ReadFile(filepath.Join(place, keyName))
		switch {
		case err == nil && len(key) >= 32:
			return key, place != dir, nil
		case err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrPermission):
			return nil, false, fmt.Errorf("%w: read the workspace key: %w", ErrDirectory, err)
		}
	}
	return nil, false, nil
}
