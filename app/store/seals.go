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

// keyPrint names, in a database, the key with which all its records are sealed.
var keyPrint = []byte("keyprint")

// printOf returns a key's name, which does not give the key away.
func printOf(key []byte) string {
	sum := sha256.Sum256(append([]byte("garlandry workspace key\n"), key...))
	return hex.EncodeToString(sum[:16])
}

// keepSeals seals every record of the database with the workspace key, if that is another than the database was sealed
// with: the key was lost or replaced. So a check of seals finds all good, or something altered. It counts what was
// sealed anew. The chain of hashes has to hold before: what was altered is not sealed.
func (s *Store) keepSeals() error {
	print := ""
	err := s.db.View(func(tx *bbolt.Tx) error {
		print = string(tx.Bucket(bucketMeta).Get(keyPrint))
		return nil
	})
	if err != nil || print == printOf(s.key) {
		return err
	}
	sealed := 0
	err = s.update(func(tx *bbolt.Tx, _ *commit) error {
		err := eachLog(tx, func(l *boltLedger, head server.Head) error {
			audit, err := l.attest(head, s.key, print == "")
			if err != nil {
				return nil // stays as it is, and a backup says so
			}
			n, err := l.seal(s.key)
			sealed += n
			head.Bytes = audit.Bytes()
			return errors.Join(err, l.SetHead(head))
		})
		if err != nil {
			return err
		}
		return tx.Bucket(bucketMeta).Put(keyPrint, []byte(printOf(s.key)))
	})
	if err == nil && sealed > 0 {
		s.repairs = append(s.repairs, fmt.Sprintf("workspace.key is not the key that this data was sealed with. "+
			"%d records were sealed with it anew; records on helpers' phones that only the old key can prove "+
			"need one of your own phones.", sealed))
	}
	return err
}

// seal returns the records of a log the seal of the key, and counts those that had another.
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

// keyAtHand reads the workspace key of a directory, or else the one that lies beside a backup; nil if there is none.
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
