package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// inviteMS is how long an owner invite may be redeemed: a week.
const inviteMS = int64(7 * 24 * 60 * 60 * 1000)

// Invite makes an owner invite in a data directory, whether or not a server has it open, and gives its token. It works
// once, within seven days. The file is named by the token's hash; whoever can write there owns the data anyway.
func Invite(dir string, options Options) (string, error) {
	options = options.filled()
	secret, err := token(options.Random)
	if err != nil {
		return "", err
	}
	folder := filepath.Join(dir, invitesName)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, folder, err)
	}
	ends := strconv.FormatInt(options.Now()+inviteMS, 10)
	return secret, writeFile(filepath.Join(folder, hashOf(secret)), []byte(ends+"\n"))
}

// CreateOwnerInvite makes an invite for one more device of the owner, see [Invite].
func (s *Store) CreateOwnerInvite(ctx context.Context) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	return Invite(s.dir, s.options)
}

// RedeemInvite lets one device in as the owner and gives the token of its session. The invite is spent. Errors are
// [ErrUnknownLink], also for one that is spent, and [ErrLinkEnded].
func (s *Store) RedeemInvite(ctx context.Context, inviteToken, name string) (string, Session, error) {
	if err := ctx.Err(); err != nil {
		return "", Session{}, err
	}
	path := filepath.Join(s.dir, invitesName, hashOf(inviteToken))
	raw, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", Session{}, ErrUnknownLink
	}
	if err != nil {
		return "", Session{}, fmt.Errorf("%w: read invite: %w", ErrDirectory, err)
	}
	if err := os.Remove(path); errors.Is(err, fs.ErrNotExist) { // the one who removes it has it
		return "", Session{}, ErrUnknownLink
	} else if err != nil {
		return "", Session{}, fmt.Errorf("%w: spend invite: %w", ErrDirectory, err)
	}
	ends, err := strconv.ParseInt(strings.TrimSpace(string(raw)), 10, 64)
	if err != nil || s.options.Now() >= ends {
		return "", Session{}, ErrLinkEnded
	}
	var secret string
	var session Session
	err = s.update(func(tx *bbolt.Tx, _ *commit) error {
		secret, session, err = s.admit(tx, sessionRow{Role: job.Owner, Name: shorten(name)})
		return err
	})
	return secret, session, err
}
