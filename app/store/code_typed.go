package store

import (
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"go.etcd.io/bbolt"
)

// A typed code has nine letters and digits that are hard to mistake for each other: 24^9 codes, 41 bits. It works for
// ten minutes, and the server takes two tries a second from all visitors together (see pwa/serve). Guessing all that
// time with twenty codes open succeeds once in a hundred million times.
const (
	typedLetters = "23456789CDFGHJKMNPQRTVWX"
	typedLength  = 9
	typedMS      = int64(10 * 60 * 1000)
)

// typedAs maps letters that are read or typed for others.
var typedAs = strings.NewReplacer("S", "5", "Z", "2", "B", "8")

// TypedCode returns a typed code without spaces and signs, in capitals. It reports whether the text looks like one.
func TypedCode(text string) (string, bool) {
	code := typedAs.Replace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(" \t-\u00a0\u2010\u2011\u2013.", r) {
			return -1
		}
		return r
	}, strings.ToUpper(text)))
	return code, len(code) == typedLength && strings.Trim(code, typedLetters) == ""
}

// CreateTypedCode returns a short code to type into the installed app, where the code of [Store.CreateInstallCode] does
// not arrive, and when it ends in Unix milliseconds. It lets the same person in once, on a device of its own, and
// replaces the session's earlier one. The error is [ErrClosed] for a session that is shut out.
func (s *Store) CreateTypedCode(ctx context.Context, session Session) (string, int64, error) {
	if err := ctx.Err(); err != nil {
		return "", 0, err
	}
	code, err := typedCode(s.options.Random)
	if err != nil {
		return "", 0, err
	}
	ends := s.options.Now() + typedMS
	return code, ends, s.update(func(tx *bbolt.Tx, _ *commit) error {
		current, err := s.refresh(tx, session)
		if err != nil {
			return err
		}
		if current.Closed != "" || current.hash == "" {
			return ErrClosed
		}
		if err := dropCodes(tx, current.hash, true); err != nil {
			return err
		}
		row := codeRow{Session: current.hash, Ends: ends, Typed: true}
		if err := putJSON(tx.Bucket(bucketCodes), []byte(s.typedHash(code)), row); err != nil {
			return err
		}
		return s.sweepCodes(tx)
	})
}

// RedeemTypedCode spends a typed code and returns the token of the new session, like [Store.RedeemInstallCode].
func (s *Store) RedeemTypedCode(ctx context.Context, text string) (string, Session, error) {
	code, _ := TypedCode(text)
	return s.redeemCode(ctx, s.typedHash(code))
}

// LookAtTypedCode returns the session that made a typed code, like [Store.InstallCode].
func (s *Store) LookAtTypedCode(ctx context.Context, text string) (Session, error) {
	code, _ := TypedCode(text)
	return s.lookAtCode(ctx, s.typedHash(code))
}

// typedHash returns the name under which a typed code is stored. It takes the workspace key, since all short codes
// could be tried against a plain hash, and it never equals the hash of another token.
func (s *Store) typedHash(code string) string {
	mac := hmac.New(sha256.New, s.key)
	mac.Write([]byte("typed code\n" + code))
	return hex.EncodeToString(mac.Sum(nil))
}

// typedCode draws a code: each byte that would favour some letters is drawn again.
func typedCode(random io.Reader) (string, error) {
	const fair = 256 - 256%len(typedLetters)
	var code strings.Builder
	var bits [1]byte
	for code.Len() < typedLength {
		if _, err := io.ReadFull(random, bits[:]); err != nil {
			return "", fmt.Errorf("read randomness: %w", err)
		}
		if n := int(bits[0]); n < fair {
			code.WriteByte(typedLetters[n%len(typedLetters)])
		}
	}
	return code.String(), nil
}

// dropCodes deletes the codes of a session: the typed one, or all.
func dropCodes(tx *bbolt.Tx, hash string, typedOnly bool) error {
	var gone []string
	codes := tx.Bucket(bucketCodes)
	err := codes.ForEach(func(key, raw []byte) error {
		var row codeRow
		if err := json.Unmarshal(raw, &row); err != nil {
			return fmt.Errorf("%w: an install code: %w", ErrDamaged, err)
		}
		if row.Session == hash && (row.Typed || !typedOnly) {
			gone = append(gone, string(key))
		}
		return nil
	})
	return forget(codes, gone, err)
}
