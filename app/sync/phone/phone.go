// Package phone is the phone's half of the exchange. It keeps each log, its outbox and its cursor, and decides what to
// send next. It does no I/O and knows nothing of seals: only the server checks them.
package phone

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/calc/stable"
)

// Errors of a phone.
var (
	ErrUntracked = errors.New("this phone does not hold that log")      // call Track
	ErrNotLoaded = errors.New("the log is not loaded from storage yet") // read Wants, call Give
	ErrUnsent    = errors.New("the log has operations not sent yet")    // it cannot be removed
)

// Options are what a phone needs from outside.
type Options struct {
	Now     func() int64   // the phone's clock, Unix milliseconds
	NewID   func() string  // 128 random bits as text
	Jitter  func() float64 // from 0 to below 1, for pauses between attempts and for revisions
	App     string         // the build, sent along
	Watched func() bool    // whether the page is in view, which keeps pauses short; nil: never

	Describe func(job.Op) (what, title string) // describes an operation and its job for a [Note]; nil: no description

	// Sizes of exchanges and of the unread tail; 0 uses the default. Tests set small ones.
	MaxOps, MaxHeal, MaxRecs, SnapshotEvery int
}

func (o Options) filled() Options {
	for _, size := range []struct {
		at    *int
		usual int
	}{{&o.MaxOps, sync.MaxOps}, {&o.MaxHeal, sync.MaxHeal}, {&o.MaxRecs, sync.MaxRecs},
		{&o.SnapshotEvery, snapshotEvery}} {
		if *size.at <= 0 {
			*size.at = size.usual
		}
	}
	return o
}

// Phone is the phone's side of the exchange: its logs, its unsent operations, and what to do next. It is a state
// machine without I/O. Every action changes it in memory and returns a [Step] for the storage. Nothing is saved until
// the step is written; only then may a page say so.
//
// To open a job: [Open] with the rows of [OpenRanges], [Phone.Track], then read what [Phone.Wants] lists and hand
// it to [Phone.Give] until nothing is wanted. To exchange: [Phone.Request], post it, [Phone.Receive] or [Phone.Failed].
// A Phone is for one goroutine.
type Phone struct {
	options Options
	rev     uint64
	writer  job.OpWriter
	order   uint64 // of the last outbox or note row
	author  job.Author
	logs    map[string]*phoneLog
	notes   []Note
	handed  map[string]sync.HandedLog // by log: the server's last answer to something sent over a closed link
}

// phoneRow is the row "phone".
type phoneRow struct {
	Version  int        `json:"ver"`
	Rev      uint64     `json:"rev"`
	Device   string     `json:"d"`
	Number   uint64     `json:"n"`
	LastWall int64      `json:"wall"`
	Counter  uint32     `json:"c"`
	Order    uint64     `json:"o"`
	Author   job.Author `json:"by"`
}

// outRow is an operation that the log on this phone does not hold yet.
type outRow struct {
	Op    job.Op      `json:"op"`
	Acked bool        `json:"acked,omitempty"` // the server said it has it; the row leaves when its record has come
	Held  bool        `json:"held,omitempty"`  // the server has it in quarantine; the row leaves when the log is forgotten
	By    *job.Author `json:"by,omitempty"`    // the owner, if the owner made it
	order uint64
}

// settled reports whether the server has the operation, in the log or in quarantine.
func (o *outRow) settled() bool { return o.Acked || o.Held }

// parked reports whether the operation waits until the owner is let in on this phone again. Sent over a helper's link
// it would be refused, or appear under the wrong name.
func (o *outRow) parked(by job.Author) bool { return o.By != nil && by.Role != job.Owner }

// author returns who made the operation on the person's phone.
func (o *outRow) author(person job.Author) job.Author {
	if o.By != nil {
		return *o.By
	}
	return person
}

// Open makes a phone from the rows in its storage. Without rows it makes a new phone with a new device id, and a step
// to write. Unreadable rows stay in the storage and are noted.
func Open(rows []Row, options Options) (*Phone, Step, error) {
	p := &Phone{options: options.filled(), logs: map[string]*phoneLog{}, handed: map[string]sync.HandedLog{}}
	p.writer.Now, p.writer.NewID = options.Now, options.NewID
	stable.Sort(rows, func(a, b Row) int { return cmp.Compare(a.Key, b.Key) })
	for _, row := range rows {
		if err := p.openRow(row); err != nil {
			p.notes = append(p.notes, Note{Key: row.Key, Log: logOfKey(row.Key), Kind: NoteDamaged, Why: err.Error()})
		}
	}
	if p.writer.Device != "" {
		return p, Step{}, nil
	}
	p.writer.Device = options.NewID()
	var w writing
	step, err := p.finish(&w)
	return p, step, err
}

func (p *Phone) openRow(row Row) error {
	switch {
	case row.Key == RowPhone:
		var r phoneRow
		if err := json.Unmarshal(row.Value, &r); err != nil {
			return fmt.Errorf("row of this phone: %w", err)
		}
		p.rev, p.order, p.author = r.Rev, max(p.order, r.Order), r.Author
		w := &p.writer
		w.Device, w.Number, w.LastWall, w.Counter = r.Device, r.Number, r.LastWall, r.Counter
	case prefix("log/").Has(row.Key):
		var meta logMeta
		if err := json.Unmarshal(row.Value, &meta); err != nil {
			return fmt.Errorf("row of a log: %w", err)
		}
		digest, err := strconv.ParseUint("0"+meta.Digest, 16, 64)
		if err != nil {
			return fmt.Errorf("digest of a log: %w", err)
		}
		meta.digest = digest
		p.log(logOfKey(row.Key)).meta = meta
	case prefix("out/").Has(row.Key):
		var out outRow
		if err := decodeRow(row, &out); err != nil {
			return fmt.Errorf("an unsent operation: %w", err)
		}
		out.order = orderOfKey(row.Key)
		p.order = max(p.order, out.order)
		l := p.log(logOfKey(row.Key))
		l.out = append(l.out, &out)
	case prefix("handed/").Has(row.Key):
		var handed sync.HandedLog
		if err := json.Unmarshal(row.Value, &handed); err != nil {
			return fmt.Errorf("row of what was sent: %w", err)
		}
		p.handed[logOfKey(row.Key)] = handed
	case prefix("note/").Has(row.Key):
		var note Note
		if err := decodeRow(row, &note); err != nil {
			return fmt.Errorf("a note: %w", err)
		}
		note.Key, note.Log = row.Key, logOfKey(row.Key)
		p.order = max(p.order, orderOfKey(row.Key))
		p.notes = append(p.notes, note)
	}
	return nil
}

func orderOfKey(key string) uint64 {
	var order uint64
	for i := len(key) - 12; i >= 0 && i < len(key); i++ {
		if key[i] < '0' || key[i] > '9' {
			return 0
		}
		order = order*10 + uint64(key[i]-'0')
	}
	return order
}

// log returns the log with the id, and makes it if needed.
func (p *Phone) log(id string) *phoneLog {
	if p.logs[id] == nil {
		p.logs[id] = &phoneLog{id: id, healed: map[string]bool{}, refused: map[string]string{}}
	}
	return p.logs[id]
}

// stride is by how much the longest step of the revision exceeds the shortest.
const stride = 1 << 32

// finish ends an action: it adds the phone's own row and raises the revision by a random amount. Two tabs that act on
// the same revision then get different new ones. With equal ones, a tab could take the other's write for its own.
func (p *Phone) finish(w *writing) (Step, error) {
	next, ops := p.rev+1+uint64(p.options.Jitter()*stride), &p.writer
	w.step.If, w.step.Rev = p.rev, next
	w.put(RowPhone, phoneRow{job.Version, next, ops.Device, ops.Number, ops.LastWall, ops.Counter, p.order, p.author})
	if w.err != nil {
		return Step{}, w.err
	}
	p.rev = next
	return w.step, nil
}

func (p *Phone) nextOrder() uint64 {
	p.order++
	return p.order
}

// Device is the id under which this phone makes operations now.
func (p *Phone) Device() string { return p.writer.Device }

// Author is the person on this phone, as the server named them when it let the phone in.
func (p *Phone) Author() job.Author { return p.author }

// SetAuthor sets who the person is. Unsent operations show under that name.
func (p *Phone) SetAuthor(a job.Author) (Step, error) {
	p.author = a
	var w writing
	return p.finish(&w)
}

// Track adds logs to the phone, all in one step. It skips those already there; if all are, the step is empty.
func (p *Phone) Track(logs ...string) (Step, error) {
	var w writing
	for _, log := range logs {
		l := p.log(log)
		if l.meta.Held {
			continue
		}
		l.meta.Held, l.meta.Since = true, p.options.Now()
		w.put(keyLog(log), l.meta)
	}
	if len(w.step.Put) == 0 {
		return Step{}, w.err
	}
	return p.finish(&w)
}

// Logs lists the logs this phone holds, sorted.
func (p *Phone) Logs() []string {
	ids := make([]string, 0, len(p.logs))
	for id, l := range p.logs {
		if l.meta.Held {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids
}

// Forget drops a log from the phone. It drops nothing and returns [ErrUnsent] if there are unsent operations, or
// records that a restored server still lacks.
func (p *Phone) Forget(log string) (Step, error) {
	l, held := p.logs[log]
	if !held {
		return Step{}, ErrUntracked
	}
	if len(p.Unsent(log)) > 0 || l.meta.Phase != following && (!l.loaded || len(l.unhealed()) > 0) {
		return Step{}, ErrUnsent
	}
	delete(p.logs, log)
	var w writing
	w.drop(prefix("out/" + log + "/"))
	w.delete(keyLog(log))
	w.delete(keySnap(log))
	w.drop(prefix("rec/" + log + "/"))
	return p.finish(&w)
}
