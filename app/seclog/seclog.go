// Package seclog keeps the security log of a data directory: who was let in, refused or shut out, what was restored,
// which limits were met. It is a file of its own, so that restoring the database never takes it back. It never holds a
// token, a code or their hashes.
package seclog

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"unicode"
)

// The kinds of event. They are stored, and stay forever.
const (
	Joined      = "joined"       // a helper's phone was let in by a link
	OwnerIn     = "owner_in"     // a device of the owner was let in by an invite
	Installed   = "installed"    // an installed app was let in by its code
	LinkMade    = "link_made"    //
	LinkEnded   = "link_ended"   //
	InviteMade  = "invite_made"  // a link for another device of the owner
	CodeMade    = "code_made"    // a short code to type into an installed app
	SignedOut   = "signed_out"   // a phone signed out
	DeviceEnded = "device_ended" //
	Refused     = "refused"      // Why says what for
	HourFull    = "hour_full"    // a link sent more than an hour allows; the phone keeps the rest
	Full        = "full"         // a link or job has used up its room
	SetAside    = "set_aside"    // operations were set aside; N says how many
	JobDeleted  = "job_deleted"  // the owner deleted a job, which can be restored for thirty days
	JobRestored = "job_restored" // the owner brought a deleted job back
	JobGone     = "job_gone"     // a deleted job was removed for good
	Restored    = "restored"     // the database was replaced by a backup, or made anew from the journal
)

// Why something was refused.
const (
	NoSuchLink = "no_such_link" // a link, invite or code that does not exist, or is spent
	LinkOver   = "link_over"    // it was revoked or has expired
	LinkBusy   = "link_busy"    // it is open on too many devices
	Stranger   = "stranger"     // no session, or one that is not known
	Closed     = "closed"       // a session that was shut out
	Forbidden  = "forbidden"    // more than the role allows
	OtherSite  = "other_site"   // a form or request sent by another site's page
	WrongHost  = "wrong_host"   //
	TooMany    = "too_many"     // too many requests in a short time
)

// Event is one line of the log.
type Event struct {
	At    int64  `json:"at"`              // Unix milliseconds; of the first, if it stands for several
	Until int64  `json:"until,omitempty"` // of the last, if it stands for several
	Times int    `json:"times,omitempty"` // how many it stands for; 0: one
	What  string `json:"what"`
	Why   string `json:"why,omitempty"`
	N     int    `json:"n,omitempty"` // operations

	Job        string `json:"job,omitempty"`
	Link       string `json:"link,omitempty"` // id
	LinkName   string `json:"link_name,omitempty"`
	Device     string `json:"device,omitempty"` // id of its session
	DeviceName string `json:"device_name,omitempty"`
	By         string `json:"by,omitempty"`   // who did it: a device of the owner, or the command line
	From       string `json:"from,omitempty"` // network address
}

// often reports whether somebody else decides how often such an event happens: many are counted together.
func (e Event) often() bool { return e.What == Refused || e.What == HourFull || e.What == Full }

// Limits that keep a flood of refusals from filling the disk, or from pushing out what matters.
const (
	fileName   = "security.ndjson"
	fileBytes  = 1 << 20 // then it gets a number, and a new one begins
	filesKept  = 4       // with a number
	togetherMS = int64(10 * 60 * 1000)
	newPerHour = 60  // refusals of a new sort in an hour; more are counted together
	mostSorts  = 200 // that are counted at once
	mostUnkept = 500 // events held in memory while the disk refuses
	textLength = 80
)

// Log is the security log of a data directory. Its methods may be called from many goroutines.
type Log struct {
	dir  string
	now  func() int64
	tell func(Event) // every line as it is written
	mu   sync.Mutex

	// refusals that are being counted together; those with Times 0 have had no more since their first
	sorts  map[sort]*Event
	hour   int64
	newNow int     // sorts begun in this hour
	unkept []Event // the disk refused them
}

// sort is what refusals that are counted together have in common.
type sort struct{ what, why, link, device, from string }

// Open opens the log of a directory. It never fails: where the disk refuses, events are held in memory and written when
// it takes them again. Tell, if given, hears of every line.
func Open(dir string, now func() int64, tell func(Event)) *Log {
	if tell == nil {
		tell = func(Event) {}
	}
	return &Log{dir: dir, now: now, tell: tell, sorts: map[sort]*Event{}}
}

// Add puts an event into the log, at the time of the log's clock. Refusals of one sort within ten minutes become one
// line when those are over.
func (l *Log) Add(e Event) {
	l.mu.Lock()
	defer l.mu.Unlock()
	e = e.plain()
	e.At = l.now()
	l.settle(e.At - togetherMS)
	if !e.often() {
		l.write(e)
		return
	}
	key := sort{e.What, e.Why, e.Link, e.Device, e.From}
	if l.sorts[key] == nil && l.crowded(e.At) {
		e = Event{At: e.At, What: e.What, Why: e.Why}
		key = sort{what: e.What, why: e.Why}
	}
	if s := l.sorts[key]; s != nil {
		if s.Times == 0 {
			s.At, s.N = e.At, 0
		}
		s.Times++
		s.N += e.N
		s.Until = e.At
		return
	}
	first := e
	first.Until = e.At // when the ten minutes began
	l.sorts[key] = &first
	l.write(e)
}

// crowded reports whether refusals of new sorts have become too many to have lines of their own.
func (l *Log) crowded(now int64) bool {
	const hourMS = 60 * 60 * 1000
	if hour := now / hourMS; hour != l.hour {
		l.hour, l.newNow = hour, 0
	}
	l.newNow++
	return l.newNow > newPerHour || len(l.sorts) >= mostSorts
}

// settle writes what was counted together and began before a time.
func (l *Log) settle(before int64) {
	for key, s := range l.sorts {
		if s.At > before {
			continue
		}
		delete(l.sorts, key)
		if s.Times > 0 {
			l.write(*s)
		}
	}
}

// Flush writes what was counted together so far.
func (l *Log) Flush() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.settle(l.now())
}

func (l *Log) write(e Event) {
	if e.Times == 1 {
		e.Times, e.Until = 0, 0
	}
	l.tell(e)
	l.unkept = append(l.unkept, e)
	for len(l.unkept) > 0 && Append(l.dir, l.unkept[0]) == nil {
		l.unkept = l.unkept[1:]
	}
	if len(l.unkept) > mostUnkept {
		l.unkept = l.unkept[len(l.unkept)-mostUnkept:]
	}
}

// Unkept is how many events are held in memory because the disk refuses them.
func (l *Log) Unkept() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return len(l.unkept)
}

// Append writes one event to the log of a directory, which a server may have open.
func Append(dir string, e Event) error {
	e = e.plain()
	line, err := json.Marshal(e)
	if err != nil {
		return fmt.Errorf("write the security log: %w", err)
	}
	path := filepath.Join(dir, fileName)
	if info, err := os.Stat(path); err == nil && info.Size() > fileBytes {
		turn(dir)
	}
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return fmt.Errorf("write the security log: %w", err)
	}
	line = append(line, '\n')
	if cutOff(file) {
		line = append([]byte{'\n'}, line...)
	}
	_, err = file.Write(line)
	if !e.often() {
		err = errors.Join(err, file.Sync())
	}
	if err = errors.Join(err, file.Close()); err != nil {
		return fmt.Errorf("write the security log: %w", err)
	}
	return nil
}

// cutOff reports whether the file's last line has no end, as a full disk leaves it.
func cutOff(file *os.File) bool {
	info, err := file.Stat()
	if err != nil || info.Size() == 0 {
		return false
	}
	last := make([]byte, 1)
	_, err = file.ReadAt(last, info.Size()-1)
	return err == nil && last[0] != '\n'
}

// turn returns the full file a number; the oldest falls away. If that fails the file goes on growing, and it is tried
// again.
func turn(dir string) {
	for n := filesKept; n > 1; n-- {
		_ = os.Rename(numbered(dir, n-1), numbered(dir, n)) // it may not be there yet
	}
	_ = os.Rename(filepath.Join(dir, fileName), numbered(dir, 1))
}

func numbered(dir string, n int) string {
	return filepath.Join(dir, fmt.Sprintf("security.%d.ndjson", n))
}

// plain shortens the event's texts and takes out what could move a terminal's cursor or turn writing around.
func (e Event) plain() Event {
	for _, text := range []*string{&e.What, &e.Why, &e.Job, &e.Link, &e.LinkName, &e.Device, &e.DeviceName, &e.By,
		&e.From} {
		*text = plainText(*text)
	}
	return e
}

func plainText(text string) string {
	clean := []rune(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "")))
	return string(clean[:min(len(clean), textLength)])
}
