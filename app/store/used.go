package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"

	"go.etcd.io/bbolt"

	"garlandry/app/sync/server"
)

// Used implements [server.Ledger].
func (l *boltLedger) Used(name string) (server.Use, error) {
	b := l.bucket.Bucket(bucketUsed)
	if b == nil || name == "" {
		return server.Use{}, nil
	}
	return l.use(name, b.Get([]byte(name)))
}

func (l *boltLedger) use(name string, raw []byte) (server.Use, error) {
	switch len(raw) {
	case 0:
		return server.Use{}, nil
	case 16:
		return server.Use{Ops: int64(binary.BigEndian.Uint64(raw)), Bytes: int64(binary.BigEndian.Uint64(raw[8:]))}, nil
	}
	return server.Use{}, fmt.Errorf("%w: what log %s counts as %s", ErrDamaged, l.log, name)
}

// AddUse implements [server.Ledger].
func (l *boltLedger) AddUse(name string, more server.Use) error {
	b, err := l.bucket.CreateBucketIfNotExists(bucketUsed)
	if err != nil {
		return fmt.Errorf("count %s: %w", name, err)
	}
	have, err := l.use(name, b.Get([]byte(name)))
	if err != nil {
		return err
	}
	sum := have.Plus(more)
	return b.Put([]byte(name), append(number(uint64(max(sum.Ops, 0))), number(uint64(max(sum.Bytes, 0)))...))
}

// Uses implements [server.Ledger].
func (l *boltLedger) Uses(prefix string) (map[string]server.Use, error) {
	found := map[string]server.Use{}
	b := l.bucket.Bucket(bucketUsed)
	if b == nil {
		return found, nil
	}
	cursor := b.Cursor()
	from := []byte(prefix)
	for key, raw := cursor.Seek(from); key != nil && bytes.HasPrefix(key, from); key, raw = cursor.Next() {
		use, err := l.use(string(key), raw)
		if err != nil {
			return nil, err
		}
		found[string(key)] = use
	}
	return found, nil
}

// DropUse implements [server.Ledger].
func (l *boltLedger) DropUse(from, to string) error {
	b := l.bucket.Bucket(bucketUsed)
	if b == nil {
		return nil
	}
	var gone []string
	cursor := b.Cursor()
	for key, _ := cursor.Seek([]byte(from)); key != nil && string(key) < to; key, _ = cursor.Next() {
		gone = append(gone, string(key))
	}
	return forget(b, gone, nil)
}

// FilledBy returns who filled a job's shared log.
func (s *Store) FilledBy(jobID string) (filled server.Filled, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		l, found := s.ledger(tx, jobID)
		if !found {
			return notFound("job", jobID)
		}
		filled, err = server.FilledBy(l, s.options.Now(), true)
		return err
	})
	return filled, err
}

// crowded reports whether an open link, or all links together, are near their limit in a job.
func (s *Store) crowded(tx *bbolt.Tx, l *boltLedger) (bool, error) {
	filled, err := server.FilledBy(l, s.options.Now(), false)
	if err != nil || filled.Others.NearLimit(server.OthersTotal) {
		return err == nil, err
	}
	for _, id := range filled.LinksNearLimit() {
		link, err := s.readLink(tx, id)
		if err == nil && link.Revoked == 0 {
			return true, nil
		}
		if err != nil && !errors.Is(err, ErrNotFound) {
			return false, err
		}
	}
	return false, nil
}

// Crowded reports whether the owner should look at who fills a job.
func (s *Store) Crowded(jobID string) (crowded bool, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		l, found := s.ledger(tx, jobID)
		if !found {
			return notFound("job", jobID)
		}
		crowded, err = s.crowded(tx, l)
		return err
	})
	return crowded, err
}
