package store

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"

	"go.etcd.io/bbolt"

	"garlandry/app/sync"
	"garlandry/app/sync/server"
)

// Seals is the result of checking a database's seals.
type Seals string

// The results of checking seals.
const (
	SealsGood     Seals = "good"      // every record carries the seal of the workspace key
	SealsNoKey    Seals = "no key"    // there was no workspace key to check with
	SealsOtherKey Seals = "other key" // no record carries the key's seal: all were sealed with another
)

// attest checks every log of a database with [server.Audit], and its indexes. The error wraps [ErrDamaged] and names
// log and sequence.
func attest(tx *bbolt.Tx, key []byte) (Seals, error) {
	sealed, unsealed, first := uint64(0), uint64(0), ""
	print := tx.Bucket(bucketMeta).Get(keyFingerprint)
	err := eachLog(tx, func(l *boltLedger, head server.Head) error {
		audit, err := l.attest(head, key, print == nil)
		if err != nil {
			return fmt.Errorf("%w: %w", ErrDamaged, err)
		}
		sealed, unsealed = sealed+audit.Sealed, unsealed+audit.Unsealed
		if audit.First > 0 && first == "" {
			first = fmt.Sprintf("log %s, record %d", l.log, audit.First)
		}
		return nil
	})
	if err == nil {
		err = jobsHaveLogs(tx)
	}
	switch {
	case err != nil:
		return "", err
	case len(key) == 0:
		return SealsNoKey, nil
	case unsealed == 0:
		return SealsGood, nil
	case sealed == 0 && string(print) != fingerprintOf(key):
		return SealsOtherKey, nil
	}
	return "", fmt.Errorf("%w: %w: %s: its seal is not this server's", ErrDamaged, server.ErrAltered, first)
}

func jobsHaveLogs(tx *bbolt.Tx) error {
	return tx.Bucket(bucketJobs).ForEach(func(id, _ []byte) error {
		for _, log := range [...]string{string(id), string(id) + sync.OwnSuffix} {
			if tx.Bucket(bucketLogs).Bucket([]byte(log)) == nil {
				return fmt.Errorf("%w: log %s is missing", ErrDamaged, log)
			}
		}
		return nil
	})
}

// indexes is what a log's index buckets should hold, computed from its records.
type indexes struct{ ids, numbers, last map[string][]byte }

// attest checks one log. Early allows a head that misses some bytes, as an earlier build did not count them.
func (l *boltLedger) attest(head server.Head, key []byte, early bool) (*server.Audit, error) {
	audit := server.NewAudit(l.log, key)
	want := indexes{map[string][]byte{}, map[string][]byte{}, map[string][]byte{}}
	seq := uint64(0)
	err := l.bucket.Bucket(bucketRecs).ForEach(func(place, raw []byte) error {
		seq++
		altered := func(what string) error {
			return fmt.Errorf("%w: log %s, record %d: %s", server.ErrAltered, l.log, seq, what)
		}
		if !bytes.Equal(place, number(seq)) {
			return altered("it is missing")
		}
		rec, err := l.decode(raw)
		if err != nil {
			return altered("it cannot be read")
		}
		if err := audit.Next(rec, string(raw[:hashBytes])); err != nil {
			return err
		}
		if again, err := json.Marshal(rec); err != nil || !bytes.Equal(again, raw[hashBytes:]) {
			return altered("its JSON is not as this server writes it")
		}
		want.ids[rec.ID] = bytes.Clone(place)
		if at := string(numberKey(rec.Device, rec.Number)); want.numbers[at] == nil {
			want.numbers[at] = []byte(rec.ID)
		}
		if on := server.Register(rec.Op); on != "" {
			at := string(registerKey(rec.Device, on))
			last := uint64(0)
			if have := want.last[at]; have != nil {
				last = binary.BigEndian.Uint64(have)
			}
			if rec.Number > last {
				want.last[at] = append(number(rec.Number), number(uint64(rec.Effective))...)
			}
		}
		return nil
	})
	if early && head.Bytes < audit.Bytes() {
		head.Bytes = audit.Bytes()
	}
	if err == nil {
		err = audit.End(head)
	}
	if err == nil {
		err = l.attestIndexes(want)
	}
	if err == nil {
		err = l.attestHeld()
	}
	return audit, err
}

func (l *boltLedger) attestIndexes(want indexes) error {
	for _, part := range []struct {
		name []byte
		want map[string][]byte
	}{{bucketIDs, want.ids}, {bucketNumbers, want.numbers}, {bucketLast, want.last}} {
		n := 0
		err := l.bucket.Bucket(part.name).ForEach(func(key, value []byte) error {
			if n++; !bytes.Equal(part.want[string(key)], value) {
				return fmt.Errorf("%w: log %s: its index %q does not match its records at %q",
					server.ErrAltered, l.log, part.name, key)
			}
			return nil
		})
		if err == nil && n != len(part.want) {
			err = fmt.Errorf("%w: log %s: its index %q has %d entries, its records make %d",
				server.ErrAltered, l.log, part.name, n, len(part.want))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// attestHeld checks that every operation in quarantine can be read and is stored under its id.
func (l *boltLedger) attestHeld() error {
	return l.bucket.Bucket(bucketHeld).ForEach(func(id, raw []byte) error {
		var h server.Held
		if err := json.Unmarshal(raw, &h); err != nil || h.Op.ID != string(id) {
			return fmt.Errorf("%w: log %s: the held operation %q cannot be read", server.ErrAltered, l.log, id)
		}
		return nil
	})
}
