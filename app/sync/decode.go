package sync

import (
	"encoding/json"
	"fmt"

	"garlandry/app/job"
)

// maxEnvelope bounds the texts of a request that are not about operations.
const maxEnvelope = 1000

// maxDepth is how deep a request or an answer nests: a value, and what lies around it.
const maxDepth = job.MaxDepth + 4

// DecodeRequest reads a request body. The error is [ErrTooLarge], [ErrTooOld], [ErrTooNew] or wraps [ErrRequest].
func DecodeRequest(data []byte) (Request, error) {
	if len(data) > MaxBytes {
		return Request{}, fmt.Errorf("%w: up to %d bytes; this has %d", ErrTooLarge, MaxBytes, len(data))
	}
	if err := job.ScanJSON(data, maxDepth); err != nil {
		return Request{}, fmt.Errorf("%w: %w", ErrRequest, err)
	}
	var req Request
	if err := json.Unmarshal(data, &req); err != nil {
		return Request{}, fmt.Errorf("%w: %w", ErrRequest, err)
	}
	return req, req.Check()
}

// Check reports whether the request as a whole may be served; single operations are judged one by one.
func (r Request) Check() error {
	switch {
	case r.V == 0:
		return fmt.Errorf("%w: v: the version of the exchange is missing", ErrRequest)
	case r.V < MinWireVersion:
		return fmt.Errorf("%w: it speaks version %d, the server %d to %d; what is unsent stays on the phone", ErrTooOld, r.V,
			MinWireVersion, WireVersion)
	case r.V > WireVersion:
		return fmt.Errorf("%w: it speaks version %d, the server up to %d; what is unsent stays on the phone", ErrTooNew, r.V,
			WireVersion)
	case !job.ValidID(r.Device):
		return fmt.Errorf("%w: d: the device must be 1 to 40 letters and digits", ErrRequest)
	case len(r.App)+len(r.As)+len(r.Cursor.Epoch)+len(r.Cursor.Hash) > maxEnvelope:
		return fmt.Errorf("%w: app, as, cur: up to %d bytes together", ErrRequest, maxEnvelope)
	case len(r.Ops) > MaxOps:
		return fmt.Errorf("%w: ops: up to %d operations; this has %d", ErrTooLarge, MaxOps, len(r.Ops))
	case len(r.Heal) > MaxHeal:
		return fmt.Errorf("%w: heal: up to %d records; this has %d", ErrTooLarge, MaxHeal, len(r.Heal))
	}
	return nil
}

// DecodeResponse reads an answer. The error wraps [ErrResponse]. One that nests too deep is never decoded: that could
// end the phone's core for good.
func DecodeResponse(data []byte) (Response, error) {
	if err := job.ScanJSON(data, maxDepth); err != nil {
		return Response{}, fmt.Errorf("%w: %w", ErrResponse, err)
	}
	var resp Response
	if err := json.Unmarshal(data, &resp); err != nil {
		return Response{}, fmt.Errorf("%w: %w", ErrResponse, err)
	}
	return resp, nil
}
