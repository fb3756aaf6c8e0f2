package phone

import (
	"math"

	"garlandry/app/job"
)

// NoteKind says why something needs a person's attention.
type NoteKind string

// The kinds of note.
const (
	NoteDenied      NoteKind = "denied"      // the link does not allow it; it was not taken
	NoteInvalid     NoteKind = "invalid"     // it is not valid; it was not taken
	NoteQuarantined NoteKind = "quarantined" // handed in after the link was closed; the owner decides
	NoteRefused     NoteKind = "refused"     // somebody's record that a restored server did not take back from this phone
	NoteMismatch    NoteKind = "mismatch"    // phone and server do not add up; nothing was thrown away
	NoteDamaged     NoteKind = "damaged"     // a row of the phone's storage cannot be read
)

// Note is one entry of the list "needs attention".
type Note struct {
	Key  string     `json:"-"`
	Log  string     `json:"-"`
	Kind NoteKind   `json:"kind"`
	Op   *job.Op    `json:"op,omitempty"`
	By   job.Author `json:"by"`
	Why  string     `json:"why,omitempty"`
	At   int64      `json:"at"` // phone clock, Unix milliseconds

	Aside bool `json:"aside,omitempty"` // a person has seen it; it is kept in case the server loses what it says

	// What the operation does and the title of its job, in a person's words when the note was made: the job may be gone
	// from the phone since. Empty where they were not known.
	What  string `json:"what,omitempty"`
	Title string `json:"title,omitempty"`
}

func (p *Phone) note(w *writing, n Note) {
	n.Key = keyNote(n.Log, p.nextOrder())
	if n.Op != nil && n.What == "" && p.options.Words != nil {
		n.What, n.Title = p.options.Words(*n.Op)
	}
	p.notes = append(p.notes, n)
	w.put(n.Key, n)
}

// unnote takes an operation off the list again.
func (p *Phone) unnote(w *writing, id string) {
	kept := p.notes[:0:0]
	for _, n := range p.notes {
		if n.Op != nil && n.Op.ID == id {
			w.delete(n.Key)
			continue
		}
		kept = append(kept, n)
	}
	p.notes = kept
}

// Notes lists what needs attention, oldest first.
func (p *Phone) Notes() []Note {
	var notes []Note
	for _, n := range p.notes {
		if !n.Aside {
			notes = append(notes, n)
		}
	}
	return notes
}

// Dismiss takes a note off the list. What is in quarantine stays here unseen, until the server has it in the log: a
// restore may lose it there. A key that is not on the list gives an empty step.
func (p *Phone) Dismiss(key string) (Step, error) {
	for i, n := range p.notes {
		if n.Key != key {
			continue
		}
		var w writing
		if n.Kind == NoteQuarantined {
			p.notes[i].Aside = true
			w.put(key, p.notes[i])
			return p.finish(&w)
		}
		p.notes = append(p.notes[:i:i], p.notes[i+1:]...)
		w.delete(key)
		return p.finish(&w)
	}
	return Step{}, nil
}

// Status is how a log stands on this phone, for display.
type Status struct {
	Waiting       int    // operations to hand in that the server has not acknowledged
	Told          int    // of those that wait: what people would count, each tick once
	Ticks         int    // of those told: ticks of cards and of lines of the pack list
	Parked        int    // operations of the owner that wait until the owner is let in on this phone again
	OldestWaiting int64  // phone clock when the oldest of them was made, 0 if none
	Shared        int64  // phone clock when the server last answered or was found to agree, 0 if never
	Since         int64  // phone clock when the log came onto this phone
	Seq, Head     uint64 // read up to; the server's end when last heard
	ClockOffMS    int64  // phone clock minus server clock at the last answer
	ClockOffDays  int    // the same in days, 0 below half a day
	Closed        string // "", [sync.Revoked] or [sync.Ended]
	Recovering    bool   // the server went back in time and is being given back what it lost
	Attention     int    // notes on this log
	Failures      int    // attempts in a row that came to nothing
	NextTry       int64  // phone clock, 0: any time
	Reason        string // of the last failure
}

// Status returns how a log stands; the zero Status if it is not held. It needs nothing loaded.
func (p *Phone) Status(log string) Status {
	l, held := p.logs[log]
	if !held {
		return Status{}
	}
	s := Status{Shared: max(l.meta.Shared, l.agreed), Since: l.meta.Since, Seq: l.meta.Cursor.Seq,
		Head: l.meta.Head, ClockOffMS: l.meta.ClockOff, Closed: l.meta.Closed,
		Recovering: l.meta.Phase != following, Failures: l.failures, NextTry: l.next, Reason: l.reason}
	s.ClockOffDays = int(math.Round(float64(s.ClockOffMS) / (24 * 60 * 60 * 1000)))
	for _, row := range l.out {
		if row.settled() {
			continue
		}
		if row.parked(p.author) {
			s.Parked++
			continue
		}
		if !row.Op.Beside() {
			s.Told++
			if row.Op.Tick() {
				s.Ticks++
			}
		}
		if s.Waiting++; s.OldestWaiting == 0 || row.Op.Wall < s.OldestWaiting {
			s.OldestWaiting = row.Op.Wall
		}
	}
	if s.Waiting > 0 {
		s.Told = max(s.Told, 1)
	}
	for _, n := range p.notes {
		if n.Log == log && !n.Aside {
			s.Attention++
		}
	}
	return s
}

// Behind reports whether another exchange is due at once: more records are to be pulled, operations to be sent, or a
// restored server to be healed.
func (p *Phone) Behind(log string) bool {
	s := p.Status(log)
	return s.Waiting > 0 || s.Closed == "" && (s.Seq < s.Head || s.Recovering)
}
