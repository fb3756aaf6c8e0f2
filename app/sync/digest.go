package sync

import (
	"fmt"
	"hash/fnv"
	"strconv"

	"garlandry/app/job"
)

// Digest returns a record's share of the sum over a log. The sum over the same records is the same on every replica,
// whatever the order and the epoch. It finds accidents, not forgeries.
func Digest(r job.Rec) uint64 {
	if share, is := emptiedShare(r); is {
		return share
	}
	sum := fnv.New64a()
	for _, part := range [...]string{r.ID, r.Device, strconv.FormatUint(r.Number, 36), string(r.Kind), r.Entity,
		r.Field, string(r.Value),
		strconv.FormatInt(r.Delta, 36), strconv.FormatInt(r.Effective, 36)} {
		sum.Write([]byte(part))
		sum.Write([]byte{0xff}) // the end of a part: UTF-8 has no such byte
	}
	h := sum.Sum64()
	h ^= h >> 33 // the finishing rounds spread every bit before digests are added up
	h *= 0xff51afd7ed558ccd
	h ^= h >> 33
	h *= 0xc4ceb9fe1a85ec53
	return h ^ h>>33
}

// FormatDigest writes a digest as it goes over the wire: 16 hex digits.
func FormatDigest(d uint64) string { return fmt.Sprintf("%016x", d) }

// emptiedShare returns the digest share of the record that an emptied one replaces.
func emptiedShare(rec job.Rec) (share uint64, is bool) {
	if rec.Kind != job.Emptied {
		return 0, false
	}
	share, err := strconv.ParseUint(rec.Share, 16, 64)
	return share, err == nil
}
