package server

import (
	"garlandry/app/job"
	"garlandry/app/sync"
)

// Aside is the latest decision on whether an operation is set aside, with the decision's stamp.
type Aside struct {
	Stamp job.Stamp `json:"at"`
	On    bool      `json:"on"`
}

// noteAside indexes a record that sets another aside. Without the index, each page of records would need a fold.
func noteAside(l Ledger, rec job.Rec) error {
	id, on, is := rec.SetsAside()
	if !is {
		return nil
	}
	last, found, err := l.Aside(id)
	if err != nil || found && !last.Stamp.Less(rec.Stamp()) {
		return err
	}
	return l.SetAside(id, Aside{rec.Stamp(), on})
}

// Withheld reports whether the server must not send the record to phones: the owner has set it aside, or it could crash
// a phone and an older build accepted it.
func Withheld(l Ledger, rec job.Rec) (bool, error) {
	if _, is := job.AsideOf(rec.Entity); is && rec.Harmless() {
		return false, nil
	}
	last, _, err := l.Aside(rec.ID)
	return last.On || err == nil && !rec.Harmless(), err
}

// emptied returns the record to send in place of a withheld one. It has the same id, stamp and sequence, and the real
// record's share of the digest. It has no seal, so no server takes it for the real one.
func emptied(rec job.Rec) job.Rec {
	return job.Rec{Op: job.Op{ID: rec.ID, Device: rec.Device, Number: rec.Number, Version: rec.Version, Kind: job.Emptied},
		Effective: rec.Effective, Seq: rec.Seq, Author: rec.Author, Share: sync.FormatDigest(sync.Digest(rec))}
}

// withhold empties the withheld records of a page.
func (x *exchange) withhold(recs []job.Rec) error {
	for i, rec := range recs {
		held, err := Withheld(x.ledger, rec)
		if err != nil {
			return err
		}
		if held {
			recs[i] = emptied(rec)
		}
	}
	return nil
}
