package store

import (
	"context"
	"encoding/json"
	"fmt"
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"garlandry/app/job"
	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

// Device is one phone that joined by a link.
type Device struct {
	Session string // its session's id
	Name    string // what the person goes by there
	Label   string // of the device; empty: it has none
	Joined  int64  // Unix milliseconds
	Seen    int64
	Closed  bool

	Installed bool // an app installed from another device of the person
}

// Link lets a helper into one job. [Store.CreateLink] returns its token once; the store keeps only the token's hash.
type Link struct {
	ID      string
	Job     string
	Name    string   // of the helper
	Role    job.Role // helper or lead
	Created int64    // Unix milliseconds
	Ends    int64
	Revoked int64 // 0: not revoked
	Devices []Device
}

// LinkWish describes a new link.
type LinkWish struct {
	Name string
	Role job.Role
	Ends int64 // Unix milliseconds
}

type linkRow struct {
	ID      string   `json:"id"`
	Job     string   `json:"job"`
	Name    string   `json:"name"`
	Role    job.Role `json:"role"`
	Created int64    `json:"made"`
	Ends    int64    `json:"ends"`
	Revoked int64    `json:"revoked,omitempty"`
}

// closed returns whether and since when the link is closed.
func (l linkRow) closed(now int64) (string, int64) {
	switch {
	case l.Revoked > 0 && l.Revoked < l.Ends:
		return sync.Revoked, l.Revoked
	case now >= l.Ends:
		return sync.Ended, l.Ends
	}
	return "", 0
}

// linkClosed returns whether and since when a link is closed, by itself or because its job was archived 30 days ago.
func (s *Store) linkClosed(tx *bbolt.Tx, link linkRow) (string, int64, error) {
	now := s.options.Now()
	closed, at := link.closed(now)
	if closed == sync.Revoked {
		return closed, at, nil
	}
	if deleted, _, err := s.deletedAt(tx, link.Job); err != nil || deleted > 0 && (closed == "" || deleted < at) {
		return sync.Ended, deleted, err
	}
	late, away, err := s.lateEnds(tx, link.Job)
	if err == nil && away && now >= late && (closed == "" || late < at) {
		return sync.Ended, late, nil
	}
	return closed, at, err
}

const (
	maxLinkMS   = int64(400 * 24 * 60 * 60 * 1000)
	maxLinkName = 60
)

func (w LinkWish) check(now int64) error {
	switch n := utf8.RuneCountInString(w.Name); {
	case n == 0:
		return &job.FieldError{Path: "name", Message: "a helper needs a name"}
	case n > maxLinkName:
		return &job.FieldError{Path: "name",
			Message: fmt.Sprintf("a name may have up to %d characters; this has %d", maxLinkName, n)}
	}
	if w.Role != job.Helper && w.Role != job.Lead {
		return &job.FieldError{Path: "role", Message: "the role must be helper or lead"}
	}
	if w.Ends <= now || w.Ends > now+maxLinkMS {
		return &job.FieldError{Path: "ends", Message: "the end must lie ahead, within 400 days"}
	}
	return nil
}

// CreateLink makes a helper link into the job and returns its token. Only the owner may do it. An invalid wish gives a
// [*job.FieldError] on name, role or ends.
func (s *Store) CreateLink(ctx context.Context, session Session, jobID string, wish LinkWish) (Link, string, error) {
	if err := ctx.Err(); err != nil {
		return Link{}, "", err
	}
	now := s.options.Now()
	wish.Name = strings.TrimSpace(wish.Name)
	if err := wish.check(now); err != nil {
		return Link{}, "", err
	}
	secret, err := token(s.options.Random)
	if err != nil {
		return Link{}, "", err
	}
	row := linkRow{s.options.NewID(), jobID, wish.Name, wish.Role, now, wish.Ends, 0}
	err = s.update(func(tx *bbolt.Tx, _ *commit) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		if tx.Bucket(bucketJobs).Get([]byte(jobID)) == nil {
			return notFound("job", jobID)
		}
		if err := s.live(tx, jobID); err != nil {
			return err
		}
		if late, away, err := s.lateEnds(tx, jobID); err != nil {
			return err
		} else if away && now >= late {
			return &job.FieldError{Path: "ends", Message: "the job was archived more than 30 days ago; restore it first"}
		}
		if err := tx.Bucket(bucketLinkTokens).Put([]byte(hashOf(secret)), []byte(row.ID)); err != nil {
			return fmt.Errorf("keep link: %w", err)
		}
		return putJSON(tx.Bucket(bucketLinks), []byte(row.ID), row)
	})
	if err != nil {
		return Link{}, "", err
	}
	return row.link(), secret, nil
}

func (l linkRow) link() Link {
	return Link{ID: l.ID, Job: l.Job, Name: l.Name, Role: l.Role, Created: l.Created, Ends: l.Ends, Revoked: l.Revoked}
}

func (s *Store) requireOwner(tx *bbolt.Tx, session Session) error {
	current, err := s.refresh(tx, session)
	if err != nil {
		return err
	}
	if current.Role != job.Owner || current.Closed != "" {
		return ErrForbidden
	}
	return nil
}

func (s *Store) readLink(tx *bbolt.Tx, id string) (linkRow, error) {
	var row linkRow
	found, err := getJSON(tx.Bucket(bucketLinks), []byte(id), &row)
	if err == nil && !found {
		err = notFound("link", id)
	}
	s.closeLink(&row)
	return row, err
}

// links visits all links, with those revoked for good marked as revoked.
func (s *Store) links(tx *bbolt.Tx, visit func(linkRow) error) error {
	return eachLink(tx, func(row linkRow) error {
		s.closeLink(&row)
		return visit(row)
	})
}

// eachLink visits all links as stored in the database.
func eachLink(tx *bbolt.Tx, visit func(linkRow) error) error {
	return tx.Bucket(bucketLinks).ForEach(func(_, raw []byte) error {
		var row linkRow
		if err := json.Unmarshal(raw, &row); err != nil {
			return fmt.Errorf("%w: a link: %w", ErrDamaged, err)
		}
		return visit(row)
	})
}

// RedeemLink lets a device in by a helper link's token and returns the token of its session. The name is what the
// person is called on that device; empty uses the link's. A link opens on several devices until it ends. Errors are
// [ErrUnknownLink], [ErrLinkRevoked], [ErrLinkEnded] or [ErrLinkFull].
func (s *Store) RedeemLink(ctx context.Context, linkToken, name string) (string, Session, error) {
	if err := ctx.Err(); err != nil {
		return "", Session{}, err
	}
	var secret string
	var session Session
	err := s.update(func(tx *bbolt.Tx, _ *commit) error {
		id := tx.Bucket(bucketLinkTokens).Get([]byte(hashOf(linkToken)))
		if id == nil {
			return ErrUnknownLink
		}
		link, err := s.readLink(tx, string(id))
		if err != nil {
			return err
		}
		secret, session, err = s.join(tx, link, name)
		return err
	})
	return secret, session, err
}

func (s *Store) join(tx *bbolt.Tx, link linkRow, name string) (string, Session, error) {
	closed, _, err := s.linkClosed(tx, link)
	if err != nil {
		return "", Session{}, err
	}
	switch closed {
	case sync.Revoked:
		return "", Session{}, ErrLinkRevoked
	case sync.Ended:
		return "", Session{}, ErrLinkEnded
	}
	open := 0
	err = s.sessions(tx, func(_ string, row sessionRow) error {
		if row.Link == link.ID && row.Revoked == 0 {
			open++
		}
		return nil
	})
	if err != nil {
		return "", Session{}, err
	}
	if open >= maxLinkSessions {
		return "", Session{}, ErrLinkFull
	}
	return s.admit(tx, sessionRow{Role: link.Role, Name: shorten(name), Job: link.Job, Link: link.ID})
}

// shorten cuts a person's name to one line of limited length, without control characters or text-direction marks.
func shorten(name string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(name, ""))
	runes := []rune(strings.TrimSpace(clean))
	return strings.TrimSpace(string(runes[:min(len(runes), maxLinkName)]))
}

// Links lists the job's helper links with their devices, closed ones included, newest first.
func (s *Store) Links(jobID string) ([]Link, error) {
	var all []Link
	err := s.db.View(func(tx *bbolt.Tx) error {
		devices := map[string][]Device{}
		err := s.sessions(tx, func(_ string, row sessionRow) error {
			devices[row.Link] = append(devices[row.Link], Device{row.ID, row.Name, row.Label,
				row.Created, row.Seen, row.Revoked > 0, row.From != ""})
			return nil
		})
		if err != nil {
			return err
		}
		return s.links(tx, func(row linkRow) error {
			if row.Job == jobID {
				link := row.link()
				link.Devices = devices[row.ID]
				sort.SliceStable(link.Devices, func(a, b int) bool { return link.Devices[a].Joined < link.Devices[b].Joined })
				all = append(all, link)
			}
			return nil
		})
	})
	sort.SliceStable(all, func(a, b int) bool { return all[a].Created > all[b].Created })
	return all, err
}

// RevokeLink closes a link for all its devices, at once and for good. When it returns, closed.ndjson on disk has it,
// and no backup opens it again. Only the owner may do it. Revoking again changes nothing.
func (s *Store) RevokeLink(ctx context.Context, session Session, id string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	var row linkRow
	err := s.db.View(func(tx *bbolt.Tx) (err error) {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		row, err = s.readLink(tx, id)
		return err
	})
	if err != nil || row.Revoked > 0 {
		return err
	}
	line := Closed{Kind: ClosedLink, ID: id, At: s.options.Now(), Name: row.Name, Job: row.Job, By: session.ID}
	if err := s.closed.add(line); err != nil {
		return err
	}
	return s.markClosed()
}
