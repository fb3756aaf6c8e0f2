package store

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"

	"go.etcd.io/bbolt"
)

// schemaVersion is written into every database. A newer one is never opened by an older build.
const schemaVersion = 1

// Buckets at the top. Inside "logs" every log has a bucket of its own, see ledger.go.
var (
	bucketMeta       = []byte("meta")
	bucketJobs       = []byte("jobs")       // job id: jobRow
	bucketLogs       = []byte("logs")       // log id: bucket
	bucketSessions   = []byte("sessions")   // token hash: sessionRow
	bucketLinks      = []byte("links")      // link id: linkRow
	bucketLinkTokens = []byte("linktokens") // token hash: link id
	bucketCodes      = []byte("codes")      // code hash: codeRow
	// device id: its owner, see server.Ledger.DeviceOf; made on first use
	bucketDevices = []byte("devices")
	// job id: bucket of photos, see photo.go; made on first use
	bucketPhotos = []byte("photos")
	keyVersion   = []byte("version")
	keySystem    = []byte("system") // sessionRow of the server itself
)

var errEmpty = errors.New("the database is empty")

// prepare makes the buckets of an empty database.
func prepare(tx *bbolt.Tx) error {
	for _, name := range [][]byte{bucketMeta, bucketJobs, bucketLogs, bucketSessions, bucketLinks, bucketLinkTokens,
		bucketCodes} {
		if _, err := tx.CreateBucketIfNotExists(name); err != nil {
			return fmt.Errorf("make bucket %s: %w", name, err)
		}
	}
	return tx.Bucket(bucketMeta).Put(keyVersion, number(schemaVersion))
}

func checkVersion(tx *bbolt.Tx) error {
	meta := tx.Bucket(bucketMeta)
	if meta == nil {
		return errEmpty
	}
	raw := meta.Get(keyVersion)
	if len(raw) != 8 {
		return errors.New("the database has no version")
	}
	if v := binary.BigEndian.Uint64(raw); v > schemaVersion {
		return fmt.Errorf("the database is of version %d, this program knows up to %d; update the program", v, schemaVersion)
	}
	return nil
}

// number encodes a number as a key; keys sort as the numbers do.
func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

func getJSON(b *bbolt.Bucket, key []byte, into any) (bool, error) {
	raw := b.Get(key)
	if raw == nil {
		return false, nil
	}
	if err := json.Unmarshal(raw, into); err != nil {
		return false, fmt.Errorf("%w: read %q: %w", ErrDamaged, key, err)
	}
	return true, nil
}

func putJSON(b *bbolt.Bucket, key []byte, value any) error {
	raw, err := json.Marshal(value)
	if err != nil {
		return fmt.Errorf("write %q: %w", key, err)
	}
	return b.Put(key, raw)
}
