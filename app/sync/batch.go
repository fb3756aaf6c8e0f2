package sync

import (
	"encoding/json"
	"fmt"

	"garlandry/app/job"
)

// batchDepth is how much deeper a request or an answer lies in one for several logs.
const batchDepth = 4

// Limits of one request for several logs.
const (
	MaxLogs       = 100               // logs asked for
	MaxWritten    = 25                // of them with something to take in: each is flushed to disk by itself
	MaxBatchBytes = MaxBytes + 64<<10 // of its body
	MaxAnswer     = 512 << 10         // of an answer, after which no more logs are looked at
)

// Batch is what a phone posts for several logs at once. Each log is answered by itself: one that is refused does not
// stop the others.
type Batch struct {
	V    int          `json:"v"`
	Logs []LogRequest `json:"logs"`
}

// LogRequest is a [Request] as it is written, with the log that it is for.
type LogRequest struct {
	Log     string          `json:"l"`
	Request json.RawMessage `json:"req"`
}

// BatchAnswer answers a [Batch]. Logs that the server did not get to are left out; they are to be asked for again.
type BatchAnswer struct {
	V    int         `json:"v"`
	Logs []LogAnswer `json:"logs"`
}

// LogAnswer is the answer for one log: a [Response] as it is written, or the HTTP status that the log would have been
// refused with alone.
type LogAnswer struct {
	Log      string          `json:"l"`
	Status   int             `json:"status"` // 200: Response stands
	Code     string          `json:"code,omitempty"`
	Message  string          `json:"message,omitempty"`
	After    int             `json:"after,omitempty"` // seconds to wait before asking again, of a refusal
	Response json.RawMessage `json:"resp,omitempty"`
}

// DecodeBatch reads the body of a request for several logs; what is for each is left to [DecodeRequest]. The error is
// [ErrTooLarge], [ErrTooOld], [ErrTooNew] or wraps [ErrRequest].
func DecodeBatch(data []byte) (Batch, error) {
	if len(data) > MaxBatchBytes {
		return Batch{}, fmt.Errorf("%w: up to %d bytes; this has %d", ErrTooLarge, MaxBatchBytes, len(data))
	}
	var b Batch
	if err := job.ScanJSON(data, maxDepth+batchDepth); err != nil {
		return Batch{}, fmt.Errorf("%w: %w", ErrRequest, err)
	}
	if err := json.Unmarshal(data, &b); err != nil {
		return Batch{}, fmt.Errorf("%w: %w", ErrRequest, err)
	}
	switch {
	case b.V == 0:
		return b, fmt.Errorf("%w: v: the version of the exchange is missing", ErrRequest)
	case b.V < MinWireVersion:
		return b, fmt.Errorf("%w: it speaks version %d, the server %d to %d", ErrTooOld, b.V, MinWireVersion, WireVersion)
	case b.V > WireVersion:
		return b, fmt.Errorf("%w: it speaks version %d, the server up to %d", ErrTooNew, b.V, WireVersion)
	case len(b.Logs) == 0:
		return b, fmt.Errorf("%w: logs: there is none", ErrRequest)
	case len(b.Logs) > MaxLogs:
		return b, fmt.Errorf("%w: logs: up to %d; this has %d", ErrTooLarge, MaxLogs, len(b.Logs))
	}
	return b, nil
}

// DecodeBatchAnswer reads the answer to a request for several logs; what is of each is left to [DecodeResponse]. The
// error wraps [ErrResponse].
func DecodeBatchAnswer(data []byte) (BatchAnswer, error) {
	var a BatchAnswer
	if err := job.ScanJSON(data, maxDepth+batchDepth); err != nil {
		return BatchAnswer{}, fmt.Errorf("%w: %w", ErrResponse, err)
	}
	if err := json.Unmarshal(data, &a); err != nil {
		return BatchAnswer{}, fmt.Errorf("%w: %w", ErrResponse, err)
	}
	return a, nil
}

// Writes reports whether the request brings something to be taken in.
func (r Request) Writes() bool { return len(r.Ops)+len(r.Heal) > 0 }

// HandedLog is where a log stands on the server, and how much of what a closed session has handed in waits there in
// quarantine, as the server tells it beside an exchange.
type HandedLog struct {
	Log   string `json:"l,omitempty"` // empty: of the one job that the link is for
	Epoch string `json:"e,omitempty"`
	Seq   uint64 `json:"s,omitempty"`
	Hash  string `json:"h,omitempty"`
	Held  int    `json:"n,omitempty"`
}
