package phone

import (
	"math"

	"garlandry/app/job"
)

// NoteKind says why something needs a person's attention.
type NoteKind string

// The kinds of note.
const (
	NoteDenied      NoteKind = "denied"      // refused: the link does not allow it
	NoteInvalid     NoteKind = "invalid"     // refused: it is not valid
	NoteQuarantined NoteKind = "quarantined" // sent after the link was closed; the owner decides
	NoteRefused     NoteKind = "refused"     // a restored server refused somebody's record from this phone
	NoteMismatch    NoteKind = "mismatch"    // the digests of phone and server differ; nothing was thrown away
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

	Dismissed bool `json:"aside,omitempty"` // hidden from the list; kept in case the server loses the operation

	// What the operation does and its job's title, described when the note was made, as the job may leave the phone.
	// Empty if unknown.
	What  string `json:"what,omitempty"`
	Title string `json:"title,omitempty"`
}

func (p *Phone) note(w *writing, n Note) {
	n.Key = keyNote(n.Log, p.nextOrder())
	if n.Op != nil && n.What == "" && p.options.Describe != nil {
		n.What, n.Title = p.options.Describe(*n.Op)
	}
	p.notes = append(p.notes, n)
	w.put(n.Key, n)
}

// dropNote removes an operation's notes.
func (p *Phone) dropNote(w *writing, id string) {
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
		if !n.Dismissed {
			notes = append(notes, n)
		}
	}
	return notes
}

// Dismiss takes a note off the list. A quarantined operation's note is only hidden until the server has it in the log,
// as a restore may lose it there. An unknown key gives an empty step.
func (p *Phone) Dismiss(key string) (Step, error) {
	for i, n := range p.notes {
		if n.Key != key {
			continue
		}
		var w writing
		if n.Kind == NoteQuarantined {
			p.notes[i].Dismissed = true
			w.put(key, p.notes[i])
			return p.finish(&w)
		}
		p.notes = append(p.notes[:i:i], p.notes[i+1:]...)
		w.delete(key)
		return p.finish(&w)
	}
	return Step{}, nil
}

// Status is the state of a log on this phone, for display.
type Status struct {
	Waiting       int    // operations to send that the server has not acknowledged
	Changes       int    // of those that wait: what people would count, each tick once
	Ticks         int    // of those told: ticks of cards and of lines of the pack list
	Parked        int    // the owner's operations, which wait until the owner is let in on this phone again
	OldestWaiting int64  // phone clock when the oldest of them was made, 0 if none
	Shared        int64  // phone clock when the server last answered or agreed, 0 if never
	Since         int64  // phone clock when the log came onto this phone
	Seq, Head     uint64 // read up to; the server's end when last heard
	ClockOffMS    int64  // phone clock minus server clock at the last answer
	ClockOffDays  int    // the same in days, 0 below half a day
	Closed        string // "", [sync.Revoked] or [sync.Ended]
	Recovering    bool   // the server went back in time and is being given back what it lost
	Attention     int    // notes on this log
	Failures      int    // failed attempts in a row
	NextTry       int64  // phone clock, 0: any time
	Reason        string // of the last failure
}

// Status returns the state of a log, the zero Status if it is not held. The log need not be loaded.
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
			s.Changes++
			if row.Op.Tick() {
				s.Ticks++
			}
		}
		if s.Waiting++; s.OldestWaiting == 0 || row.Op.Wall < s.OldestWaiting {
			s.OldestWaiting = row.Op.Wall
		}
	}
	if s.Waiting > 0 {
		s.Changes = max(s.Changes, 1)
	}
	for _, n := range p.notes {
		if n.Log == log && !n.Dismissed {
			s.Attention++
		}
	}
	return s
}

// Behind reports whether to exchange again at once: to pull more records, send operations, or heal a restored server.
func (p *Phone) Behind(log string) bool {
	s := p.Status(log)
	return s.Waiting > 0 || s.Closed == "" && (s.Seq < s.Head || s.Recovering)
}
