// Package sync is what goes over the wire between a phone and the server: requests and answers, their limits and
// codes, and how they are decoded. Package phone is the phone's half of the exchange, package server the server's.
// All three are pure: they know neither HTTP nor any storage.
package sync

import "garlandry/app/job"

// WireVersion is the version of the exchange that this build speaks; MinWireVersion the oldest it still answers.
const (
	WireVersion    = 1
	MinWireVersion = 1
)

// Limits of one exchange.
const (
	MaxOps   = 500     // operations in a request
	MaxRecs  = 1000    // records in an answer
	MaxHeal  = 500     // records sent back to a rewound server in a request
	MaxBytes = 1 << 20 // of a request body
)

// Cursor is how far a phone has read a log.
type Cursor struct {
	Epoch string `json:"e,omitempty"`
	Seq   uint64 `json:"s,omitempty"`
	Hash  string `json:"h,omitempty"` // chain hash at Seq
}

// Request is what a phone posts for one log.
type Request struct {
	V      int    `json:"v"`
	App    string `json:"app"` // build
	Device string `json:"d"`
	// whom the phone thinks it is let in as; if that is wrong, the server stores nothing
	As     string    `json:"as,omitempty"`
	Now    int64     `json:"now"` // the phone's clock, Unix milliseconds, when it sent this
	Cursor Cursor    `json:"cur"`
	Closed bool      `json:"closed,omitempty"` // the phone thinks its link is closed and only sends
	Max    int       `json:"max,omitempty"`    // records wanted at most; 0: MaxRecs
	Waits  bool      `json:"waits,omitempty"`  // the phone knows [Later]
	Ops    []job.Op  `json:"ops,omitempty"`
	Heal   []job.Rec `json:"heal,omitempty"` // only after Rewound
}

// Result is what became of one operation.
type Result string

// The results. Only denied and invalid are final refusals: the phone shows them under "needs attention".
const (
	OK          Result = "ok"   // in the log, now or since an earlier delivery
	Duplicate   Result = "dup"  // in the log under another device or number: it was sent again after a fork
	Fork        Result = "fork" // this device number was used by another operation: take a new device id, send again
	Quarantined Result = "quarantined"
	Denied      Result = "denied"
	Invalid     Result = "invalid"
	Later       Result = "later" // not taken now: keep it and send it again after the answer's pause
)

// Ack answers one operation.
type Ack struct {
	ID     string `json:"i"`
	Result Result `json:"r"`
	Why    string `json:"why,omitempty"`
}

// Response is the server's answer. Operations and cursor are on disk before it is sent; the same request gives the same
// acknowledgements again.
type Response struct {
	V       int       `json:"v"`
	MinV    int       `json:"min_v"`
	Now     int64     `json:"now"`
	Epoch   string    `json:"e"`
	Head    uint64    `json:"head"` // last sequence in this log
	Hash    string    `json:"h"`    // chain hash at the last record sent, or at the cursor if none is sent
	Seq     uint64    `json:"s"`    // sequence that Hash belongs to: the phone's next cursor
	Safe    uint64    `json:"safe"` // last sequence in a verified backup
	Acks    []Ack     `json:"ack,omitempty"`
	Pause   int64     `json:"pause,omitempty"` // milliseconds until operations put off with [Later] may be taken
	Recs    []job.Rec `json:"recs,omitempty"`
	More    bool      `json:"more,omitempty"`
	Digest  string    `json:"dig"` // order-free sum over all records of the log, as hex
	Count   uint64    `json:"cnt"`
	Rewound bool      `json:"rewound,omitempty"` // the server went back in time: reset the cursor, send Heal
	// the phone thought its link was closed and it is open: nothing was stored, start over
	Open   bool   `json:"open,omitempty"`
	Closed string `json:"closed,omitempty"` // "revoked" or "ended": the session may send, but gets nothing
	Held   int    `json:"held,omitempty"`   // only if Closed: how many operations of the session wait in quarantine
}
