package sync

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"

	"garlandry/app/job"
)

// sealed is what the server vouches for: the operation, its stamp and its author, in this log and no other.
type sealed struct {
	Log       string     `json:"log"`
	Op        job.Op     `json:"op"`
	Effective int64      `json:"eff"`
	Author    job.Author `json:"by"`
}

func sealedBody(log string, r job.Rec) ([]byte, error) {
	body, err := json.Marshal(sealed{log, r.Op, r.Effective, r.Author})
	if err != nil {
		return nil, fmt.Errorf("write operation %s for its seal: %w", r.ID, err)
	}
	return body, nil
}

// Seal gives the server's HMAC-SHA256 over the record's operation, stamp and author in the log, as 32 hex digits. The
// place in the log is left out: it changes when a restored server is healed.
func Seal(key []byte, log string, r job.Rec) (string, error) {
	body, err := sealedBody(log, r)
	if err != nil {
		return "", err
	}
	return seal(key, body), nil
}

func seal(key, body []byte) string {
	mac := hmac.New(sha256.New, key)
	mac.Write(body)
	return hex.EncodeToString(mac.Sum(nil)[:16])
}

// Verify reports whether the record carries the seal that the key gives it. An empty key verifies nothing.
func Verify(key []byte, log string, r job.Rec) bool {
	want, err := Seal(key, log, r)
	return err == nil && len(key) > 0 && hmac.Equal([]byte(want), []byte(r.MAC))
}

// chain gives the hash of a log that had the hash before and now ends in a record with this body, as 32 hex digits.
func chain(before string, body []byte) string {
	h := sha256.New()
	h.Write([]byte(before))
	h.Write([]byte{'\n'})
	h.Write(body)
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// Digest gives a record's share in the order-free sum over a log: the sum over the same records is the same on every
// replica, whatever the order and the epoch. It finds accidents, not forgers.
func Digest(r job.Rec) uint64 {
	if share, is := emptiedShare(r); is {
		return share
	}
	h := fnvOffset
	for _, part := range [...]string{r.ID, r.Device, strconv.FormatUint(r.Number, 36), string(r.Kind), r.Entity, r.Field, string(r.Value),
		strconv.FormatInt(r.Delta, 36), strconv.FormatInt(r.Effective, 36)} {
		h = fnv(h, part)
	}
	h ^= h >> 33 // the finishing rounds spread every bit before digests are added up
	h *= 0xff51afd7ed558ccd
	h ^= h >> 33
	h *= 0xc4ceb9fe1a85ec53
	return h ^ h>>33
}

const (
	fnvOffset = uint64(14695981039346656037)
	fnvPrime  = uint64(1099511628211)
)

// fnv goes on with an FNV-1a hash over a text and an end mark.
func fnv(h uint64, text string) uint64 {
	for i := 0; i < len(text); i++ {
		h = (h ^ uint64(text[i])) * fnvPrime
	}
	return (h ^ 0xff) * fnvPrime
}

// FormatDigest writes a digest as it goes over the wire: 16 hex digits.
func FormatDigest(d uint64) string { return fmt.Sprintf("%016x", d) }
