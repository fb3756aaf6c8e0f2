package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

const (
	inviteMS    = int64(7 * 24 * 60 * 60 * 1000) // how long an owner invite may be redeemed: a week
	invitesKept = 50                             // open at once; beyond that the oldest give way
)

// Invite makes an owner invite in a data directory and returns its token. A server may have the directory open. The
// invite works once, within seven days. Its file is named by the token's hash; a person who can write there owns the
// data anyway. Invite also removes expired invites.
func Invite(dir string, options Options) (string, error) { return invite(dir, options.filled(), "") }

func invite(dir string, options Options, by string) (string, error) {
	secret, err := token(options.Random)
	if err != nil {
		return "", err
	}
	folder := filepath.Join(dir, invitesName)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, folder, err)
	}
	if err := sweepInvites(folder, options.Now(), invitesKept-1); err != nil {
		return "", err
	}
	ends := strconv.FormatInt(options.Now()+inviteMS, 10)
	return secret, writeFile(filepath.Join(folder, hashOf(secret)), []byte(strings.TrimSpace(ends+" "+by)+"\n"))
}

// CreateOwnerInvite makes an invite for another device of the owner, see [Invite]. Only the owner may do it. Ending the
// device that made it removes the invite.
func (s *Store) CreateOwnerInvite(ctx context.Context, session Session) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	if err := s.db.View(func(tx *bbolt.Tx) error { return s.requireOwner(tx, session) }); err != nil {
		return "", err
	}
	return invite(s.dir, s.options, session.ID)
}

// inviteFile is an invite in the data directory.
type inviteFile struct {
	path string
	ends int64  // Unix milliseconds; 0 if unreadable
	by   string // the session that made it, empty for the command line
}

// readInvite reads an invite's file. The error is [ErrUnknownLink] if there is none.
func readInvite(path string) (inviteFile, error) {
	raw, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return inviteFile{}, ErrUnknownLink
	}
	if err != nil {
		return inviteFile{}, fmt.Errorf("%w: read invite: %w", ErrDirectory, err)
	}
	ends, by, _ := strings.Cut(strings.TrimSpace(string(raw)), " ")
	found := inviteFile{path: path, by: by}
	if at, err := strconv.ParseInt(ends, 10, 64); err == nil {
		found.ends = at
	}
	return found, nil
}

// openInvites reads the invites of a folder.
func openInvites(folder string) ([]inviteFile, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: read invites: %w", ErrDirectory, err)
	}
	var all []inviteFile
	for _, e := range entries {
		if len(e.Name()) != 64 { // not named by a hash: being written
			continue
		}
		found, err := readInvite(filepath.Join(folder, e.Name()))
		if errors.Is(err, ErrUnknownLink) { // spent meanwhile
			continue
		}
		if err != nil {
			return nil, err
		}
		all = append(all, found)
	}
	return all, nil
}

func removeInvite(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%w: remove an invite: %w", ErrDirectory, err)
	}
	return nil
}

// sweepInvites removes expired invites, and all but the keep that expire last.
func sweepInvites(folder string, now int64, keep int) error {
	all, err := openInvites(folder)
	if err != nil {
		return err
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].ends > all[b].ends })
	for i, found := range all {
		if i >= keep || now >= found.ends {
			err = errors.Join(err, removeInvite(found.path))
		}
	}
	return err
}

// removeInvitesOf removes the invites that the sessions made.
func (s *Store) removeInvitesOf(sessions map[string]bool) error {
	all, err := openInvites(filepath.Join(s.dir, invitesName))
	if err != nil {
		return err
	}
	for _, found := range all {
		if sessions[found.by] {
			err = errors.Join(err, removeInvite(found.path))
		}
	}
	return err
}

// RedeemInvite lets one device in as the owner and returns the token of its session. Only success spends the invite: on
// a full disk it stays valid. Errors are [ErrUnknownLink], also for a spent invite, and [ErrLinkEnded].
func (s *Store) RedeemInvite(ctx context.Context, inviteToken, name string) (string, Session, error) {
	if err := ctx.Err(); err != nil {
		return "", Session{}, err
	}
	hash := hashOf(inviteToken)
	path := filepath.Join(s.dir, invitesName, hash)
	var secret string
	var session Session
	err := s.update(func(tx *bbolt.Tx, _ *commit) error {
		found, err := readInvite(path)
		if err != nil {
			return err
		}
		if s.options.Now() >= found.ends {
			return ErrLinkEnded
		}
		if s.closed.at(ClosedInvite, hash) > 0 || s.closed.at(ClosedDevice, found.by) > 0 {
			return ErrUnknownLink
		}
		err = s.sessions(tx, func(_ string, row sessionRow) error {
			if row.Invite == hash { // spent, and its file could not be removed
				return ErrUnknownLink
			}
			return nil
		})
		if err != nil {
			return err
		}
		secret, session, err = s.admit(tx, sessionRow{Role: job.Owner, Name: shorten(name), Invite: hash})
		return err
	})
	if err != nil {
		return "", Session{}, err
	}
	_ = s.spend(ClosedInvite, hash) // if it fails, the session's row still says so
	_ = removeInvite(path)
	return secret, session, nil
}

// spend records that a single-use code was used. No backup makes it valid again.
func (s *Store) spend(kind, hash string) error {
	return s.closed.add(Closed{Kind: kind, ID: hash, At: s.options.Now()})
}
