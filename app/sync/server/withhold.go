package server

import (
	"garlandry/app/job"
	"garlandry/app/sync"
)

// Aside is the last word on whether an operation is set aside, by the stamp of who said so.
type Aside struct {
	Stamp job.Stamp `json:"at"`
	On    bool      `json:"on"`
}

// noteAside files what a record says of another one, so that a page of records need not fold the log.
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

// Withheld reports whether the record is not sent to phones: the owner has set it aside, or an older build accepted
// what could stop a phone.
func Withheld(l Ledger, rec job.Rec) (bool, error) {
	if _, is := job.AsideOf(rec.Entity); is && rec.Harmless() {
		return false, nil
	}
	last, _, err := l.Aside(rec.ID)
	return last.On || err == nil && !rec.Harmless(), err
}

// emptied gives the record that is sent in place of one that is withheld. It has the same id, stamp and place, and says
// what the real one adds to the digest. It has no seal: no server takes it for the real one.
func emptied(rec job.Rec) job.Rec {
	return job.Rec{Op: job.Op{ID: rec.ID, Device: rec.Device, Number: rec.Number, Version: rec.Version, Kind: job.Emptied},
		Effective: rec.Effective, Seq: rec.Seq, Author: rec.Author, Share: sync.FormatDigest(sync.Digest(rec))}
}

// withhold empties those of the records that are not sent.
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
