package job

import (
	"cmp"
	"encoding/json"
)

// Kind names what an operation does. A kind this build does not know is kept, carried and replayed; only owners'
// devices may bring one.
type Kind string

// The kinds of operation of version 1.
const (
	Set       Kind = "set"       // a register takes a value
	Add       Kind = "add"       // a tally grows or shrinks by Delta; Value may name the kind of what was added
	Undo      Kind = "undo"      // the tally operation named by Field never counts again
	Stocktake Kind = "stocktake" // a tally was counted by eye: Value is a Counted
)

// Known reports whether this build knows what an operation of the kind does.
func (k Kind) Known() bool { return k == Set || k == Add || k == Undo || k == Stocktake }

// Op is one change, made once on one device and never altered. The envelope is fixed for good: later versions put what
// they need in Value under a new Kind.
type Op struct {
	ID      string          `json:"i"`            // random, 128 bits, 26 base32 letters
	Device  string          `json:"d"`            // who made it
	Number  uint64          `json:"n"`            // that device's own count, from 1
	Version int             `json:"ver"`          // of the operation's format
	Kind    Kind            `json:"k"`            //
	Entity  string          `json:"e"`            // what it is about: "piece/7kq2", "pack/latex/11/coral"
	Field   string          `json:"f,omitempty"`  // register of the entity; for Undo the id of the operation taken back
	Value   json.RawMessage `json:"v,omitempty"`  //
	Delta   int64           `json:"dx,omitempty"` // for Add
	Wall    int64           `json:"w"`            // the device's own clock, Unix milliseconds; only a proposal
	Counter uint32          `json:"c,omitempty"`  // tells apart operations of one millisecond
	Parents []string        `json:"p,omitempty"`  // at most two: the winner seen for this register, own last unsent one
}

// Tick reports whether people would call the operation a tick: a card or pack line was done, reopened, bought,
// packed, set aside as not needed, or counted.
func (o Op) Tick() bool {
	if !IsProgress(o.Entity) {
		return false
	}
	return o.Kind == Add || o.Kind == Undo || o.Kind == Set && tickField(o.Field)
}

// Beside reports whether the operation accompanies a tick of the same card and says how much the tick stands for.
// People count the two as one.
func (o Op) Beside() bool {
	return o.Kind == Set && (o.Field == "stands" || o.Field == "have" && IsCard(o.Entity))
}

// Counted is the value of a [Stocktake]: someone counted N by eye, which replaces the operations it covers.
type Counted struct {
	N      int64    `json:"count"`
	Covers []string `json:"covers,omitempty"`
}

// Author says who made an operation, as the server knew them when it arrived.
type Author struct {
	Role Role   `json:"r"`
	Name string `json:"n,omitempty"`
	Link string `json:"l,omitempty"` // the helper link or owner device it came by
}

// ServerLink is the link of what the server itself writes, such as the demo.
const ServerLink = "server"

// Rec is an operation that the server has accepted.
type Rec struct {
	Op
	Effective int64  `json:"eff"` // the server's stamp, Unix milliseconds, fixed for good
	Seq       uint64 `json:"s"`   // place in the log of this epoch, from 1
	Author    Author `json:"by"`
	MAC       string `json:"m,omitempty"`   // the server's seal over operation, stamp and author
	Share     string `json:"dig,omitempty"` // of an [Emptied] record: what the real one adds to the log's digest
}

// Stamp orders operations on one register.
type Stamp struct {
	Effective int64  `json:"t"`
	Device    string `json:"d"`
	Number    uint64 `json:"n"`
	ID        string `json:"i"`
}

// Stamp returns the record's place among all operations.
func (r Rec) Stamp() Stamp { return Stamp{r.Effective, r.Device, r.Number, r.ID} }

// Compare orders stamps by effective time, then device, number and id.
func (s Stamp) Compare(o Stamp) int {
	return cmp.Or(cmp.Compare(s.Effective, o.Effective), cmp.Compare(s.Device, o.Device),
		cmp.Compare(s.Number, o.Number), cmp.Compare(s.ID, o.ID))
}

// Less reports whether s comes before o.
func (s Stamp) Less(o Stamp) bool { return s.Compare(o) < 0 }

// pendingBase is above every server stamp: a phone's unsent operations win on that phone.
const pendingBase = int64(1) << 60

// PendingRec makes a record of an unsent operation for its own device: after everything accepted, in the order made.
func PendingRec(op Op, by Author) Rec {
	return Rec{Op: op, Effective: pendingBase + int64(op.Number), Author: by}
}

// Pending reports whether the record has not been accepted by the server yet.
func (r Rec) Pending() bool { return r.Effective >= pendingBase }

// Pending reports whether the stamp belongs to an operation that has not been accepted by the server yet.
func (s Stamp) Pending() bool { return s.Effective >= pendingBase }
