package server

import (
	"encoding/json"

	"garlandry/app/job"
)

// Head describes the end of a log on the server.
type Head struct {
	Epoch   string `json:"e"`             // changes when the log went back in time
	Seq     uint64 `json:"s"`             // of the last record
	Hash    string `json:"h,omitempty"`   // chain hash at Seq
	Digest  uint64 `json:"dig,omitempty"` // sum of [sync.Digest] over all records
	Count   uint64 `json:"cnt,omitempty"`
	Bytes   uint64 `json:"size,omitempty"` // of all records, as they are sealed
	Created int64  `json:"made"`           // when the job was made; no stamp is earlier
	// the latest server clock that stamped here, in case the clock is put back
	Latest int64  `json:"latest,omitempty"`
	Safe   uint64 `json:"safe,omitempty"` // last sequence in a verified backup
}

// Held is an operation in quarantine. It came after its link was closed and waits for the owner.
type Held struct {
	Op        job.Op     `json:"op"`
	Author    job.Author `json:"by"`
	Session   string     `json:"session"`
	At        int64      `json:"at"`       // server clock when it came
	Proposed  int64      `json:"proposed"` // when it was made, by the phone's corrected clock
	BeforeEnd bool       `json:"before"`   // made before the link was closed, as far as the clocks show
	Ignored   bool       `json:"ignored,omitempty"`
}

// Bytes is how much of a session's limit the operation uses.
func (h Held) Bytes() int {
	raw, err := json.Marshal(h.Op)
	if err != nil {
		return MaxHeldBytes
	}
	return len(raw)
}

// Restamp records an operation that a restored server stamped again, before a phone returned the record with its first
// stamp. Stamps never change. Instead, records that were above the old stamp are put above the new one when they
// return.
type Restamp struct {
	ID  string `json:"i"`
	Old int64  `json:"old"`
	New int64  `json:"new"`
}

// MaxRestamps is how many restamps one register keeps. Every operation on the register scans them, so the limit bounds
// the cost of a register that somebody filled. Beyond it, returning records are lifted only above their own parents.
const MaxRestamps = 500

// Ledger is one log on the server, inside one transaction of its storage. If any method or [Serve] returns an error,
// the caller must undo everything. [Serve] assigns sequences from 1, without gaps.
type Ledger interface {
	// Log is the id of the log: the job's id, with [sync.OwnSuffix] for the owner's private one.
	Log() string
	// Key seals records.
	Key() []byte
	// Head and SetHead read and write the log's head.
	Head() (Head, error)
	SetHead(Head) error
	// ByID finds a record by its operation's id.
	ByID(id string) (rec job.Rec, found bool, err error)
	// ByNumber returns the id of the operation that first used a device's number.
	ByNumber(device string, number uint64) (id string, found bool, err error)
	// LastOn returns number and stamp of the device's operation with the highest number on a register, zeros if none.
	LastOn(device, register string) (number uint64, effective int64, err error)
	// HashAt returns the chain hash at a sequence from 1 to the head's.
	HashAt(seq uint64) (hash string, found bool, err error)
	// Read returns up to limit records from the sequence on, in order.
	Read(from uint64, limit int) ([]job.Rec, error)
	// Append adds the record at its sequence with the chain hash there, and indexes it by id, number and register. A used
	// number keeps its first operation. The register is "" for operations without one.
	Append(rec job.Rec, hash, register string) error
	// Restamps lists the restamped operations of a register; AddRestamp adds one unless it is there.
	Restamps(register string) ([]Restamp, error)
	AddRestamp(register string, r Restamp) error
	// Aside returns the latest decision on whether an operation is set aside, even of one that is not in the log. SetAside
	// replaces it.
	Aside(id string) (last Aside, found bool, err error)
	SetAside(id string, last Aside) error
	// DeviceOf returns a device id's owner, across all logs on the server, "" if it has none. BindDevice sets the owner
	// unless it has one.
	DeviceOf(device string) (owner string, err error)
	BindDevice(device, owner string) error
	// HeldBy returns how many operations and bytes a session has in quarantine.
	HeldBy(session string) (ops, bytes int, err error)
	// IsHeld reports whether the operation is in quarantine, ignored ones included.
	IsHeld(id string) (bool, error)
	// Hold puts an operation into quarantine, and counts it with [CountHeld].
	Hold(Held) error
	// Used returns the counter with the name, zeros if there is none. AddUse adds to it; a negative use subtracts, to zero
	// at most.
	Used(name string) (Use, error)
	AddUse(name string, more Use) error
	// Uses returns all counters whose names have the prefix. DropUse deletes the names from the first up to, but without,
	// the second.
	Uses(prefix string) (map[string]Use, error)
	DropUse(from, to string) error
}

// Session says who is asking. The caller has checked it.
type Session struct {
	ID       string // of this device's session
	Family   string // of the sessions that share a phone: the one an install code came from; "": its own
	Author   job.Author
	Closed   string // "", [sync.Revoked] or [sync.Ended]
	ClosedAt int64  // Unix milliseconds; only if Closed
}

// Register names the register that the operation writes, for [Ledger.Append]; "" if it writes none.
func Register(op job.Op) string {
	switch op.Kind {
	case job.Add, job.Undo:
		return ""
	case job.Stocktake:
		return op.Entity + "\x00\x00"
	}
	return op.Entity + "\x00" + op.Field
}
