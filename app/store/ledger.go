package store

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// Keys and buckets inside the bucket of one log.
var (
	keyHead       = []byte("head")
	keySnapshot   = []byte("snapshot")
	bucketRecs    = []byte("recs")    // sequence: chain hash (32 bytes), record as JSON
	bucketIDs     = []byte("ids")     // operation id: sequence
	bucketNumbers = []byte("numbers") // device, 0, number: operation id
	bucketLast    = []byte("last")    // device, 0, register: number and stamp of its last operation
	bucketMoved   = []byte("moved")   // register: list of server.Restamp
	bucketHeld    = []byte("held")    // operation id: server.Held
	bucketHeldBy  = []byte("heldby")  // session id: operations, bytes
	bucketAside   = []byte("aside")   // operation id: server.Aside; made on first use
	bucketUsed    = []byte("used")    // name: operations, bytes (8 bytes each); made on first use
)

const hashBytes = 32

// boltLedger is one log inside one transaction; it implements [server.Ledger].
type boltLedger struct {
	log      string
	key      []byte
	bucket   *bbolt.Bucket
	lines    []journalLine // for the journal
	appended bool          // records are among them
}

var _ server.Ledger = (*boltLedger)(nil)

// ledger opens a log. The second result is false if there is none.
func (s *Store) ledger(tx *bbolt.Tx, log string) (*boltLedger, bool) {
	b := tx.Bucket(bucketLogs).Bucket([]byte(log))
	if b == nil {
		return nil, false
	}
	return &boltLedger{log: log, key: s.key, bucket: b}, true
}

// makeLog makes an empty log in a writing transaction.
func (s *Store) makeLog(tx *bbolt.Tx, log string, now int64) error {
	b, err := tx.Bucket(bucketLogs).CreateBucket([]byte(log))
	if err != nil {
		return fmt.Errorf("make log %s: %w", log, err)
	}
	for _, name := range [][]byte{bucketRecs, bucketIDs, bucketNumbers, bucketLast, bucketMoved, bucketHeld,
		bucketHeldBy} {
		if _, err := b.CreateBucket(name); err != nil {
			return fmt.Errorf("make log %s: %w", log, err)
		}
	}
	return putJSON(b, keyHead, server.Head{Epoch: s.options.NewID(), Created: now})
}

// Log implements [server.Ledger].
func (l *boltLedger) Log() string { return l.log }

// Key implements [server.Ledger].
func (l *boltLedger) Key() []byte { return l.key }

// Head implements [server.Ledger].
func (l *boltLedger) Head() (server.Head, error) {
	var head server.Head
	found, err := getJSON(l.bucket, keyHead, &head)
	if err == nil && !found {
		err = fmt.Errorf("%w: log %s has no head", ErrDamaged, l.log)
	}
	return head, err
}

// SetHead implements [server.Ledger].
func (l *boltLedger) SetHead(head server.Head) error { return putJSON(l.bucket, keyHead, head) }

// ByID implements [server.Ledger].
func (l *boltLedger) ByID(id string) (job.Rec, bool, error) {
	if id == "" {
		return job.Rec{}, false, nil
	}
	seq := l.bucket.Bucket(bucketIDs).Get([]byte(id))
	if seq == nil {
		return job.Rec{}, false, nil
	}
	rec, err := l.decode(l.bucket.Bucket(bucketRecs).Get(seq))
	return rec, err == nil, err
}

func (l *boltLedger) decode(raw []byte) (job.Rec, error) {
	var rec job.Rec
	if len(raw) < hashBytes {
		return rec, fmt.Errorf("%w: a record of log %s is missing", ErrDamaged, l.log)
	}
	if err := json.Unmarshal(raw[hashBytes:], &rec); err != nil {
		return rec, fmt.Errorf("%w: a record of log %s: %w", ErrDamaged, l.log, err)
	}
	return rec, nil
}

// ByNumber implements [server.Ledger].
func (l *boltLedger) ByNumber(device string, n uint64) (string, bool, error) {
	id := l.bucket.Bucket(bucketNumbers).Get(numberKey(device, n))
	return string(id), id != nil, nil
}

func numberKey(device string, n uint64) []byte {
	return binary.BigEndian.AppendUint64(append([]byte(device), 0), n)
}

// LastOn implements [server.Ledger].
func (l *boltLedger) LastOn(device, register string) (uint64, int64, error) {
	raw := l.bucket.Bucket(bucketLast).Get(registerKey(device, register))
	if len(raw) != 16 {
		return 0, 0, nil
	}
	return binary.BigEndian.Uint64(raw), int64(binary.BigEndian.Uint64(raw[8:])), nil
}

func registerKey(device, register string) []byte {
	return append(append([]byte(device), 0), register...)
}

// HashAt implements [server.Ledger].
func (l *boltLedger) HashAt(seq uint64) (string, bool, error) {
	raw := l.bucket.Bucket(bucketRecs).Get(number(seq))
	if len(raw) < hashBytes {
		return "", false, nil
	}
	return string(raw[:hashBytes]), true, nil
}

// Read implements [server.Ledger].
func (l *boltLedger) Read(from uint64, limit int) ([]job.Rec, error) {
	var recs []job.Rec
	cursor := l.bucket.Bucket(bucketRecs).Cursor()
	for key, raw := cursor.Seek(number(from)); key != nil && len(recs) < limit; key, raw = cursor.Next() {
		rec, err := l.decode(raw)
		if err != nil {
			return nil, err
		}
		recs = append(recs, rec)
	}
	return recs, nil
}

// Append implements [server.Ledger].
func (l *boltLedger) Append(rec job.Rec, hash, register string) error {
	if len(hash) != hashBytes {
		return fmt.Errorf("chain hash of %d bytes, want %d", len(hash), hashBytes)
	}
	raw, err := json.Marshal(rec)
	if err != nil {
		return fmt.Errorf("write record %s: %w", rec.ID, err)
	}
	recs := l.bucket.Bucket(bucketRecs)
	recs.FillPercent = 0.95 // sequences only grow
	err = errors.Join(
		recs.Put(number(rec.Seq), append([]byte(hash), raw...)),
		l.bucket.Bucket(bucketIDs).Put([]byte(rec.ID), number(rec.Seq)))
	numbers := l.bucket.Bucket(bucketNumbers)
	if key := numberKey(rec.Device, rec.Number); numbers.Get(key) == nil {
		err = errors.Join(err, numbers.Put(key, []byte(rec.ID)))
	}
	if register != "" {
		last, _, lastErr := l.LastOn(rec.Device, register)
		err = errors.Join(err, lastErr)
		if rec.Number > last {
			value := append(number(rec.Number), number(uint64(rec.Effective))...)
			err = errors.Join(err, l.bucket.Bucket(bucketLast).Put(registerKey(rec.Device, register), value))
		}
	}
	l.lines, l.appended = append(l.lines, journalLine{Log: l.log, Rec: &rec}), true
	return err
}

// Restamps implements [server.Ledger].
func (l *boltLedger) Restamps(register string) ([]server.Restamp, error) {
	var moved []server.Restamp
	_, err := getJSON(l.bucket.Bucket(bucketMoved), []byte(register), &moved)
	return moved, err
}

// AddRestamp implements [server.Ledger].
func (l *boltLedger) AddRestamp(register string, r server.Restamp) error {
	moved, err := l.Restamps(register)
	if err != nil {
		return err
	}
	for _, have := range moved {
		if have == r {
			return nil
		}
	}
	return putJSON(l.bucket.Bucket(bucketMoved), []byte(register), append(moved, r))
}

// Aside implements [server.Ledger].
func (l *boltLedger) Aside(id string) (last server.Aside, found bool, err error) {
	if b := l.bucket.Bucket(bucketAside); b != nil && id != "" {
		found, err = getJSON(b, []byte(id), &last)
	}
	return last, found, err
}

// SetAside implements [server.Ledger].
func (l *boltLedger) SetAside(id string, last server.Aside) error {
	b, err := l.bucket.CreateBucketIfNotExists(bucketAside)
	if err != nil {
		return fmt.Errorf("set operation %s aside: %w", id, err)
	}
	return putJSON(b, []byte(id), last)
}

// DeviceOf implements [server.Ledger].
func (l *boltLedger) DeviceOf(device string) (string, error) {
	b := l.bucket.Tx().Bucket(bucketDevices)
	if b == nil || device == "" {
		return "", nil
	}
	return string(b.Get([]byte(device))), nil
}

// BindDevice implements [server.Ledger].
func (l *boltLedger) BindDevice(device, owner string) error {
	b, err := l.bucket.Tx().CreateBucketIfNotExists(bucketDevices)
	if err != nil {
		return fmt.Errorf("bind device %s: %w", device, err)
	}
	if b.Get([]byte(device)) != nil {
		return nil
	}
	return b.Put([]byte(device), []byte(owner))
}

type heldBy struct {
	Ops   int `json:"ops"`
	Bytes int `json:"bytes"`
}

// HeldBy implements [server.Ledger].
func (l *boltLedger) HeldBy(session string) (int, int, error) {
	var use heldBy
	_, err := getJSON(l.bucket.Bucket(bucketHeldBy), []byte(session), &use)
	return use.Ops, use.Bytes, err
}

// IsHeld implements [server.Ledger].
func (l *boltLedger) IsHeld(id string) (bool, error) {
	return id != "" && l.bucket.Bucket(bucketHeld).Get([]byte(id)) != nil, nil
}

// Hold implements [server.Ledger].
func (l *boltLedger) Hold(held server.Held) error {
	ops, bytes, err := l.HeldBy(held.Session)
	if err != nil {
		return err
	}
	l.lines = append(l.lines, journalLine{Log: l.log, Held: &held})
	return errors.Join(
		putJSON(l.bucket.Bucket(bucketHeld), []byte(held.Op.ID), held),
		putJSON(l.bucket.Bucket(bucketHeldBy), []byte(held.Session), heldBy{ops + 1, bytes + held.Bytes()}),
		server.CountHeld(l, held, true))
}
