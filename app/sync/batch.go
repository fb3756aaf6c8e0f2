package sync

import (
	"encoding/json"
	"fmt"

	"garlandry/app/job"
)

// batchDepth is how much deeper a batch nests than a request or an answer for one log.
const batchDepth = 4

// Limits of one request for several logs.
const (
	MaxLogs       = 100               // logs asked for
	MaxWritten    = 25                // of them with operations: each is flushed to disk separately
	MaxBatchBytes = MaxBytes + 64<<10 // of its body
	MaxAnswer     = 512 << 10         // of an answer; beyond it the server skips the remaining logs
)

// Batch is what a phone posts for several logs at once. Each log gets its own answer; a refused one does not stop the
// others.
type Batch struct {
	V    int          `json:"v"`
	Logs []LogRequest `json:"logs"`
}

// LogRequest is an encoded [Request] with its log.
type LogRequest struct {
	Log     string          `json:"l"`
	Request json.RawMessage `json:"req"`
}

// BatchAnswer answers a [Batch]. It leaves out logs that the server skipped; the phone asks for them again.
type BatchAnswer struct {
	V    int         `json:"v"`
	Logs []LogAnswer `json:"logs"`
}

// LogAnswer is the answer for one log: an encoded [Response], or the HTTP status that refuses it.
type LogAnswer struct {
	Log      string          `json:"l"`
	Status   int             `json:"status"` // 200: Response stands
	Code     string          `json:"code,omitempty"`
	Message  string          `json:"message,omitempty"`
	After    int             `json:"after,omitempty"` // seconds to wait before asking again, of a refusal
	Response json.RawMessage `json:"resp,omitempty"`
}

// DecodeBatch decodes the body of a request for several logs; [DecodeRequest] decodes each log's part. The error is
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

// DecodeBatchAnswer decodes the answer to a request for several logs; [DecodeResponse] decodes each log's part. The
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

// Writes reports whether the request has something to store.
func (r Request) Writes() bool { return len(r.Ops)+len(r.Heal) > 0 }

// HandedLog is the end of a log on the server, with the number of a closed session's operations in quarantine there.
// The server sends it outside an exchange.
type HandedLog struct {
	Log   string `json:"l,omitempty"` // empty: of the one job that the link is for
	Epoch string `json:"e,omitempty"`
	Seq   uint64 `json:"s,omitempty"`
	Hash  string `json:"h,omitempty"`
	Held  int    `json:"n,omitempty"`
}
