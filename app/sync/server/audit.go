package server

import (
	"errors"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// ErrAltered says that a log is not as this server wrote it.
var ErrAltered = errors.New("the log was altered")

// Audit checks a whole log: chain of hashes, sums, places, ids and seals. Make it with [NewAudit], give it every record
// in order, then call End.
type Audit struct {
	log      string
	key      []byte
	head     Head            // as the records so far make it
	ids      map[string]bool // seen
	Sealed   uint64          // records whose seal is good
	Unsealed uint64          // the others
	First    uint64          // sequence of the first record without a good seal, 0: none
}

// NewAudit begins with an empty log. Without a key every record counts as unsealed.
func NewAudit(log string, key []byte) *Audit {
	return &Audit{log: log, key: key, ids: map[string]bool{}}
}

// Next checks one record and the chain hash that is kept with it. The error wraps [ErrAltered] and names log and
// sequence. A seal that is not good is counted and is no error: the key may be another one.
func (a *Audit) Next(rec job.Rec, hash string) error {
	seq := a.head.Seq + 1
	body, err := sealedBody(a.log, rec)
	if err != nil {
		return a.altered(seq, "its operation cannot be written: "+err.Error())
	}
	switch want := chain(a.head.Hash, body); {
	case rec.Seq != seq:
		return a.altered(seq, fmt.Sprintf("the record there says that its place is %d", rec.Seq))
	case a.ids[rec.ID]:
		return a.altered(seq, "operation "+rec.ID+" stands there a second time")
	case hash != want:
		return a.altered(seq, "its chain hash does not follow from what it says and from the records before it")
	}
	if len(a.key) > 0 && seal(a.key, body) == rec.MAC {
		a.Sealed++
	} else {
		if a.Unsealed++; a.First == 0 {
			a.First = seq
		}
	}
	a.ids[rec.ID] = true
	a.head.Seq, a.head.Hash = seq, hash
	a.head.Count++
	a.head.Digest += sync.Digest(rec)
	a.head.Bytes += uint64(len(body))
	return nil
}

// End checks that the head says what the records come to.
func (a *Audit) End(head Head) error {
	got := a.head
	switch {
	case head.Seq != got.Seq, head.Count != got.Count:
		return a.altered(got.Seq,
			fmt.Sprintf("the log ends there, and its head says %d records up to %d", head.Count, head.Seq))
	case head.Hash != got.Hash, head.Digest != got.Digest, head.Bytes != got.Bytes:
		return a.altered(got.Seq, "the head's sums are not those of the records up to there")
	case head.Safe > head.Seq:
		return a.altered(got.Seq, fmt.Sprintf("the head says that %d is safe", head.Safe))
	}
	return nil
}

// Bytes is what the records so far come to, see [Head].
func (a *Audit) Bytes() uint64 { return a.head.Bytes }

func (a *Audit) altered(seq uint64, what string) error {
	return fmt.Errorf("%w: log %s, record %d: %s", ErrAltered, a.log, seq, what)
}
