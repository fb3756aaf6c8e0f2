package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sort"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// bucketClientLinks holds the links to clients' pages. It is made on first use.
var bucketClientLinks = []byte("clientlinks") // token hash: clientLinkRow

const (
	maxClientLinkMS = int64(800 * 24 * 60 * 60 * 1000) // weddings are booked two years ahead
	maxClientLinks  = 20                               // open ones of a job
)

// ClientShows is what a client's page shows besides pictures, date and colours.
type ClientShows struct {
	Title    bool `json:"title,omitempty"`    // the job's name
	Measures bool `json:"measures,omitempty"` // how wide and high each piece looks
	Crew     bool `json:"crew,omitempty"`     // first names
}

// ClientLink opens a job's page for its client, without signing in. [Store.CreateClientLink] returns its token once;
// the store keeps only the token's hash.
type ClientLink struct {
	ID      string
	Job     string
	Shows   ClientShows
	Created int64 // Unix milliseconds
	Ends    int64
	Revoked int64 // 0: not revoked
}

type clientLinkRow struct {
	ID      string      `json:"id"`
	Job     string      `json:"job"`
	Shows   ClientShows `json:"shows"`
	Created int64       `json:"made"`
	Ends    int64       `json:"ends"`
	Revoked int64       `json:"revoked,omitempty"`
}

// CreateClientLink makes a link to the job's page for its client and returns its token. Ends is in Unix milliseconds,
// within 800 days. Only the owner may do it. An invalid end, or too many open links, give a [*job.FieldError] on ends.
func (s *Store) CreateClientLink(ctx context.Context, session Session, jobID string, shows ClientShows, ends int64) (
	ClientLink, string, error) {
	now := s.options.Now()
	if ends <= now || ends > now+maxClientLinkMS {
		return ClientLink{}, "", &job.FieldError{Path: "ends", Message: "the end must lie ahead, within 800 days"}
	}
	secret, err := token(s.options.Random)
	if err != nil {
		return ClientLink{}, "", err
	}
	row := clientLinkRow{ID: s.options.NewID(), Job: jobID, Shows: shows, Created: now, Ends: ends}
	err = s.ownerEdits(ctx, session, func(tx *bbolt.Tx) error {
		if tx.Bucket(bucketJobs).Get([]byte(jobID)) == nil {
			return notFound("job", jobID)
		}
		if err := s.live(tx, jobID); err != nil {
			return err
		}
		open := 0
		err := s.clientLinks(tx, func(_ string, other clientLinkRow) error {
			if other.Job == jobID && other.Revoked == 0 && now < other.Ends {
				open++
			}
			return nil
		})
		if err != nil {
			return err
		}
		if open >= maxClientLinks {
			return &job.FieldError{Path: "ends",
				Message: fmt.Sprintf("%d client links are open; end one first", maxClientLinks)}
		}
		b, err := tx.CreateBucketIfNotExists(bucketClientLinks)
		if err != nil {
			return fmt.Errorf("keep client link: %w", err)
		}
		return putJSON(b, []byte(hashOf(secret)), row)
	})
	if err != nil {
		return ClientLink{}, "", err
	}
	return ClientLink(row), secret, nil
}

// OpenClientLink returns the link of a token. The error is [ErrUnknownLink] for every link that opens nothing, whether
// it never existed, was revoked, has expired, or its job was deleted: a stranger cannot tell these apart.
func (s *Store) OpenClientLink(token string) (ClientLink, error) {
	var row clientLinkRow
	err := s.db.View(func(tx *bbolt.Tx) error {
		b := tx.Bucket(bucketClientLinks)
		if b == nil {
			return ErrUnknownLink
		}
		found, err := getJSON(b, []byte(hashOf(token)), &row)
		if err != nil {
			return err
		}
		if s.closeClientLink(&row); !found || row.Revoked > 0 || s.options.Now() >= row.Ends {
			return ErrUnknownLink
		}
		if err = s.live(tx, row.Job); errors.Is(err, ErrNotFound) || errors.Is(err, ErrJobGone) {
			return ErrUnknownLink
		}
		return err
	})
	if err != nil {
		return ClientLink{}, err
	}
	return ClientLink(row), nil
}

// ClientLinks lists the links to the job's page for its client, closed ones included, newest first.
func (s *Store) ClientLinks(jobID string) ([]ClientLink, error) {
	var all []ClientLink
	err := s.db.View(func(tx *bbolt.Tx) error {
		return s.clientLinks(tx, func(_ string, row clientLinkRow) error {
			if row.Job == jobID {
				all = append(all, ClientLink(row))
			}
			return nil
		})
	})
	sort.SliceStable(all, func(a, b int) bool { return all[a].Created > all[b].Created })
	return all, err
}

// RevokeClientLink closes a link to a client's page at once and for good. When it returns, closed.ndjson on disk has
// it, and no backup opens it again. Only the owner may do it. The error wraps [ErrNotFound] for a link that the job
// does not have. Revoking again changes nothing.
func (s *Store) RevokeClientLink(ctx context.Context, session Session, jobID, id string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	found := false
	err := s.db.View(func(tx *bbolt.Tx) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		return s.clientLinks(tx, func(_ string, row clientLinkRow) error {
			found = found || row.ID == id && row.Job == jobID
			return nil
		})
	})
	if err != nil {
		return err
	}
	if !found {
		return notFound("client link", id)
	}
	line := Closed{Kind: ClosedClientLink, ID: id, At: s.options.Now(), Job: jobID, By: session.ID}
	if err := s.closed.add(line); err != nil {
		return err
	}
	return s.markClosed()
}

// clientLinks visits the links to clients' pages with their token hashes, those revoked for good marked as revoked.
func (s *Store) clientLinks(tx *bbolt.Tx, visit func(hash string, row clientLinkRow) error) error {
	return eachClientLink(tx, func(hash string, row clientLinkRow) error {
		s.closeClientLink(&row)
		return visit(hash, row)
	})
}

// eachClientLink visits the links to clients' pages as stored in the database, with their token hashes.
func eachClientLink(tx *bbolt.Tx, visit func(hash string, row clientLinkRow) error) error {
	b := tx.Bucket(bucketClientLinks)
	if b == nil {
		return nil
	}
	return b.ForEach(func(key, raw []byte) error {
		var row clientLinkRow
		if err := json.Unmarshal(raw, &row); err != nil {
			return fmt.Errorf("%w: a client link: %w", ErrDamaged, err)
		}
		return visit(string(key), row)
	})
}

// dropClientLinks removes the links to a job's page for its client.
func dropClientLinks(tx *bbolt.Tx, jobID string) error {
	var gone []string
	err := eachClientLink(tx, func(hash string, row clientLinkRow) error {
		if row.Job == jobID {
			gone = append(gone, hash)
		}
		return nil
	})
	return forget(tx.Bucket(bucketClientLinks), gone, err)
}
