package store

import (
	"errors"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Errors that callers branch on.
var (
	ErrNotFound    = errors.New("not found")
	ErrForbidden   = errors.New("not allowed for this link")
	ErrJobFull     = errors.New(sync.WhyFull)
	ErrLater       = errors.New(sync.WhyLater)
	ErrJobGone     = errors.New("this job was deleted for good more than 30 days ago")
	ErrClosed      = errors.New("this link is closed")
	ErrUnknownLink = errors.New("there is no such link; check that it was copied whole")
	ErrLinkRevoked = errors.New("this link was revoked; ask for a new one")
	ErrLinkEnded   = errors.New("this link has expired; ask for a new one")
	ErrLinkFull    = errors.New("this link is open on too many devices; take one off or make another link")
	ErrPhoto       = errors.New("the photo cannot be stored")
	ErrPhotoPlace  = errors.New("the next part of the photo begins elsewhere")
	ErrPhotosFull  = fmt.Errorf("%d photos are shared already; stop sharing one first", job.MostSharedPhotos)
	ErrInUse       = errors.New("the data directory is in use by another process")
	ErrDirectory   = errors.New("the data directory cannot be used")
	ErrDamaged     = errors.New("the database is damaged")
)
