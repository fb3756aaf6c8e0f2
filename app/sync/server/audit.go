package server

import (
	"errors"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// ErrAltered marks a log that differs from what this server wrote.
var ErrAltered = errors.New("the log was altered")

// Audit checks a whole log: hash chain, sums, sequences, ids and seals. Make it with [NewAudit], call Next with every
// record in order, then End.
type Audit struct {
	log      string
	key      []byte
	head     Head            // computed from the records so far
	ids      map[string]bool // seen
	Sealed   uint64          // records whose seal is good
	Unsealed uint64          // the others
	First    uint64          // sequence of the first record without a good seal, 0: none
}

// NewAudit starts the audit of a log. Without a key every record counts as unsealed.
func NewAudit(log string, key []byte) *Audit {
	return &Audit{log: log, key: key, ids: map[string]bool{}}
}

// Next checks one record and the chain hash stored with it. The error wraps [ErrAltered] and names log and sequence. A
// bad seal is counted but is no error, as the key may be another one.
func (a *Audit) Next(rec job.Rec, hash string) error {
	seq := a.head.Seq + 1
	body, err := sealedBody(a.log, rec)
	if err != nil {
		return a.altered(seq, "its operation cannot be written: "+err.Error())
	}
	switch want := chain(a.head.Hash, body); {
	case rec.Seq != seq:
		return a.altered(seq, fmt.Sprintf("the record there has sequence %d", rec.Seq))
	case a.ids[rec.ID]:
		return a.altered(seq, "operation "+rec.ID+" is there twice")
	case hash != want:
		return a.altered(seq, "its chain hash does not match its content and the records before it")
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

// End checks the head against the records.
func (a *Audit) End(head Head) error {
	got := a.head
	switch {
	case head.Seq != got.Seq, head.Count != got.Count:
		return a.altered(got.Seq,
			fmt.Sprintf("the log ends there, but its head says %d records up to %d", head.Count, head.Seq))
	case head.Hash != got.Hash, head.Digest != got.Digest, head.Bytes != got.Bytes:
		return a.altered(got.Seq, "the head's sums do not match the records up to there")
	case head.Safe > head.Seq:
		return a.altered(got.Seq, fmt.Sprintf("the head says that %d is safe", head.Safe))
	}
	return nil
}

// Bytes is the size of the records so far, see [Head].
func (a *Audit) Bytes() uint64 { return a.head.Bytes }

func (a *Audit) altered(seq uint64, what string) error {
	return fmt.Errorf("%w: log %s, record %d: %s", ErrAltered, a.log, seq, what)
}
