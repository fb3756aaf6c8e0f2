package server

import (
	"encoding/json"

	"garlandry/app/job"
)

// Head is where a log stands on the server.
type Head struct {
	Epoch   string `json:"e"`             // changes when the log went back in time
	Seq     uint64 `json:"s"`             // of the last record
	Hash    string `json:"h,omitempty"`   // chain hash at Seq
	Digest  uint64 `json:"dig,omitempty"` // sum of [sync.Digest] over all records
	Count   uint64 `json:"cnt,omitempty"`
	Bytes   uint64 `json:"size,omitempty"` // of all records, as they are sealed
	Created int64  `json:"made"`           // when the job was made; no stamp lies before
	// the latest server clock that stamped here, so that a clock put back does no harm
	Latest int64  `json:"latest,omitempty"`
	Safe   uint64 `json:"safe,omitempty"` // last sequence in a verified backup
}

// Held is an operation in quarantine: it came after its link was closed and waits for the owner.
type Held struct {
	Op        job.Op     `json:"op"`
	Author    job.Author `json:"by"`
	Session   string     `json:"session"`
	At        int64      `json:"at"`       // server clock when it came
	Proposed  int64      `json:"proposed"` // when it was made, by the phone's clock set right
	BeforeEnd bool       `json:"before"`   // made before the link was closed, as far as the clock tells
	Ignored   bool       `json:"ignored,omitempty"`
}

// Bytes is how much of a session's allowance the operation takes.
func (h Held) Bytes() int {
	raw, err := json.Marshal(h.Op)
	if err != nil {
		return MaxHeldBytes
	}
	return len(raw)
}

// Restamp is an operation that a restored server stamped anew before a phone came back with the record of its first
// stamp. Stamps are never altered; instead what stood above the old one is put above the new one when it comes back.
type Restamp struct {
	ID  string `json:"i"`
	Old int64  `json:"old"`
	New int64  `json:"new"`
}

// MaxRestamps is how many moved stamps one register keeps. Every operation on the register goes through them, so that a
// register somebody has filled with thousands costs no more than this many steps each. Beyond it, records on that
// register come back with their own stamps and are lifted only above what they name themselves.
const MaxRestamps = 500

// Ledger is one log on the server, inside one transaction of whatever keeps it: if any method or [Serve] gives an error
// the caller must undo everything. Sequences are given out by [Serve], from 1, without gaps.
type Ledger interface {
	// Log is the id of the log: the job's id, with [sync.OwnSuffix] for the owner's private one.
	Log() string
	// Key seals records.
	Key() []byte
	// Head and SetHead read and write where the log stands.
	Head() (Head, error)
	SetHead(Head) error
	// ByID finds a record by its operation's id.
	ByID(id string) (rec job.Rec, found bool, err error)
	// ByNumber gives the id of the operation that first used a device's number.
	ByNumber(device string, number uint64) (id string, found bool, err error)
	// LastOn gives number and stamp of the device's operation with the highest number on a register, zeros if none.
	LastOn(device, register string) (number uint64, effective int64, err error)
	// HashAt gives the chain hash at a sequence from 1 to the head's.
	HashAt(seq uint64) (hash string, found bool, err error)
	// Read gives up to limit records from the sequence on, in order.
	Read(from uint64, limit int) ([]job.Rec, error)
	// Append adds the record at its sequence with the chain hash there, and files it by id, number and register. A number
	// that is taken keeps its first owner. The register is "" for operations that are on none.
	Append(rec job.Rec, hash, register string) error
	// Restamps lists what is known to have another stamp on a register than it once had; AddRestamp adds one, once.
	Restamps(register string) ([]Restamp, error)
	AddRestamp(register string, r Restamp) error
	// Aside gives the last word on whether an operation is set aside, known to the log or not; SetAside replaces it.
	Aside(id string) (last Aside, found bool, err error)
	SetAside(id string, last Aside) error
	// DeviceOf gives whose device id it is, of all logs on the server, "" if nobody's yet. BindDevice makes it somebody's;
	// one that is somebody's already keeps its owner.
	DeviceOf(device string) (owner string, err error)
	BindDevice(device, owner string) error
	// HeldBy gives how many operations and bytes a session has in quarantine.
	HeldBy(session string) (ops, bytes int, err error)
	// IsHeld reports whether the operation is in quarantine, ignored ones included.
	IsHeld(id string) (bool, error)
	// Hold puts an operation into quarantine, and counts it with [CountHeld].
	Hold(Held) error
	// Used gives what was counted under a name, zeros if nothing was. AddUse adds to it, or takes away where it is
	// negative, never below nothing.
	Used(name string) (Use, error)
	AddUse(name string, more Use) error
	// Uses gives all that is counted under names with the prefix. DropUse forgets the names from the first up to, but
	// not with, the second.
	Uses(prefix string) (map[string]Use, error)
	DropUse(from, to string) error
}

// Session is who is asking, as the caller has made sure of it.
type Session struct {
	ID       string // of this device's session
	Family   string // of the sessions that share a phone: the one an install code came from; "": its own
	Author   job.Author
	Closed   string // "", [sync.Revoked] or [sync.Ended]
	ClosedAt int64  // Unix milliseconds; only if Closed
}

// Register names what the operation competes for, as [Ledger.Append] is told it. It is "" for an operation that
// competes for nothing.
func Register(op job.Op) string {
	switch op.Kind {
	case job.Add, job.Undo:
		return ""
	case job.Stocktake:
		return op.Entity + "\x00\x00"
	}
	return op.Entity + "\x00" + op.Field
}
