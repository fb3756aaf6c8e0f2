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

// Seals says what a check of a database could tell of its seals.
type Seals string

// What a check of seals comes to.
const (
	SealsGood     Seals = "good"      // every record carries the seal of the workspace key
	SealsNoKey    Seals = "no key"    // there was no workspace key to check with
	SealsOtherKey Seals = "other key" // no record carries the seal of the key: it was made with another
)

// attest checks every log of a database as [sync.Audit] does, and its indexes. Without a key at hand, or with one that
// fits no record, it says so. The error wraps [ErrDamaged] and names log and sequence.
func attest(tx *bbolt.Tx, key []byte) (Seals, error) {
	sealed, unsealed, first := uint64(0), uint64(0), ""
	print := tx.Bucket(bucketMeta).Get(keyPrint)
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
	case sealed == 0 && string(print) != printOf(key):
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

// indexes is what the records of a log come to, as the buckets beside them should have it.
type indexes struct{ ids, numbers, last map[string][]byte }

// attest checks one log. One of an earlier build may have begun before its bytes were counted.
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
			return altered("it is not spelled as this server writes it")
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
				return fmt.Errorf("%w: log %s: its index %q does not fit its records at %q",
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

// attestHeld checks that what is in quarantine can be read and lies under its own name.
func (l *boltLedger) attestHeld() error {
	return l.bucket.Bucket(bucketHeld).ForEach(func(id, raw []byte) error {
		var h server.Held
		if err := json.Unmarshal(raw, &h); err != nil || h.Op.ID != string(id) {
			return fmt.Errorf("%w: log %s: the held operation %q cannot be read", server.ErrAltered, l.log, id)
		}
		return nil
	})
}
