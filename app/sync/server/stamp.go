package server

import (
	"encoding/json"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// clockToleranceMS is how far a phone's clock may be off before its times are corrected.
const clockToleranceMS = 2000

// propose returns when an operation was made by the server's clock. It corrects the phone's time by how far off its
// clock was when it sent the request, and never returns a time in the future.
func propose(wall, sent, now int64) int64 {
	wall = min(max(wall, -sync.FarthestMS), sync.FarthestMS)
	sent = min(max(sent, -sync.FarthestMS), sync.FarthestMS)
	if off := sent - now; off > clockToleranceMS || off < -clockToleranceMS {
		wall -= off
	}
	return min(wall, now)
}

// settle turns a proposed time into a stamp. The stamp is above the operation's parents, keeps the order of the
// device's operations on the register, and is never before the job's creation. First is a healed record's original
// stamp, 0 for a new operation.
func settle(l Ledger, head Head, op job.Op, proposed, first int64) (int64, error) {
	effective := proposed
	on := Register(op)
	if on != "" {
		number, last, err := l.LastOn(op.Device, on)
		switch {
		case err != nil:
			return 0, err
		case number > op.Number:
			effective = min(effective, last-1)
		case number > 0:
			effective = max(effective, last+1)
		}
	}
	effective = max(effective, head.Created)
	var moved []Restamp
	if on != "" {
		var err error
		if moved, err = l.Restamps(on); err != nil {
			return 0, err
		}
	}
	above := first
	for _, id := range op.Parents {
		parent, found, err := l.ByID(id)
		if err != nil {
			return 0, err
		}
		if found {
			once := firstStamp(moved, parent)
			effective = max(effective, parent.Effective+1, once+1)
			above = max(above, once)
		}
	}
	for _, r := range moved {
		if r.Old < above && r.ID != op.ID {
			effective = max(effective, r.New+1)
		}
	}
	return effective, nil
}

// firstStamp returns the stamp a record had before its restamp; the highest, if there are several.
func firstStamp(moved []Restamp, r job.Rec) int64 {
	once, anew := r.Effective, false
	for _, m := range moved {
		switch {
		case m.ID != r.ID:
		case anew:
			once = max(once, m.Old)
		default:
			once, anew = m.Old, true
		}
	}
	return once
}

// appendRec gives the record its sequence, seal and hash and adds it to the log. It advances the head without writing
// it.
func appendRec(l Ledger, head *Head, rec job.Rec) error {
	if rec.Value != nil {
		value, err := json.Marshal(rec.Value) // one spelling for seal, hash and digest
		if err != nil {
			return fmt.Errorf("write value of operation %s: %w", rec.ID, err)
		}
		rec.Value = value
	}
	body, err := sealedBody(l.Log(), rec)
	if err != nil {
		return err
	}
	rec.Seq, rec.Share = head.Seq+1, ""
	rec.MAC = seal(l.Key(), body)
	hash := chain(head.Hash, body)
	if err := l.Append(rec, hash, Register(rec.Op)); err != nil {
		return fmt.Errorf("append operation %s: %w", rec.ID, err)
	}
	if err := noteAside(l, rec); err != nil {
		return fmt.Errorf("note what operation %s sets aside: %w", rec.ID, err)
	}
	head.Seq, head.Hash = rec.Seq, hash
	head.Digest += sync.Digest(rec)
	head.Count++
	head.Bytes += uint64(len(body))
	return countRec(l, rec.Author, len(body))
}
