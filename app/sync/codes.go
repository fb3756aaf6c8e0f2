package sync

import (
	"errors"

	"garlandry/app/job"
)

// Errors of an exchange as a whole. Nothing was written then.
var (
	ErrRequest  = errors.New("sync request not valid")              // HTTP 400
	ErrTooLarge = errors.New("sync request too large")              // HTTP 413
	ErrTooOld   = errors.New("this app is too old for the server")  // HTTP 426
	ErrTooNew   = errors.New("this app is newer than the server")   // HTTP 426; try again later
	ErrPrivate  = errors.New("this log is for the owner's devices") // HTTP 403
	// HTTP 409
	ErrOther = errors.New("this device was let in as somebody else meanwhile; ask who it is, then send again")
)

// ErrResponse is an answer that cannot be used. Nothing was changed; try again later.
var ErrResponse = errors.New("answer of the server not valid")

// Why a session is closed.
const (
	Revoked = "revoked" // the owner took the link back: everything new waits in quarantine
	Ended   = "ended"   // the link ran out: what was made before is taken
)

// OwnSuffix ends the id of an owner's private log.
const OwnSuffix = "~own"

// Why operations are refused, or put off, by a log or link that has reached its limits.
const (
	WhyFull       = "this job holds as much as a job can; copy it and go on in the copy"
	WhyLinkFull   = "this link has used up its room in this job; ask the owner for a new link"
	WhyOthersFull = "the helpers have used up their room in this job; ask the owner to copy it and share the copy"
	WhyLater      = "very much was sent in the last hour; it stays on this phone and is sent again later"
	WhyHeldFull   = "the link is closed and too much was sent already; show the list to the owner"
)

// IsFull reports whether the reason of a refusal is that a limit in all was reached.
func IsFull(why string) bool {
	return why == WhyFull || why == WhyLinkFull || why == WhyOthersFull || why == WhyHeldFull
}

// Identity returns whom a device is let in as: the owner, or its link.
func Identity(by job.Author) string {
	if by.Role == job.Owner {
		return string(job.Owner)
	}
	return by.Link
}

// FarthestMS bounds every clock that comes over the wire, so that no sum overflows; some 140,000 years.
const FarthestMS = int64(1) << 52
