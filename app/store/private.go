package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

const forOthers = fs.FileMode(0o077) // permissions of everybody but the owner

// private makes a data directory readable by its owner alone, as it holds sessions, prices and clients' contacts. It
// returns a sentence that says what it changed. It refuses with [ErrDirectory] a directory that belongs to somebody
// else, is shared by design, holds other things too, or cannot be closed.
func private(dir string) (word string, err error) {
	info, err := os.Stat(dir)
	if err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	if !modesCount || !info.IsDir() {
		return "", nil
	}
	if info.Mode()&forOthers != 0 {
		if err := closeToOthers(dir, info); err != nil {
			return "", err
		}
		word = fmt.Sprintf("Others on this machine could look into %s. It is yours alone now.", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return word, fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	for _, e := range entries {
		info, err := e.Info()
		if errors.Is(err, fs.ErrNotExist) || !ours(e.Name()) {
			continue
		}
		if err == nil && (info.Mode()&forOthers == 0 || info.Mode()&fs.ModeSymlink != 0) {
			continue
		}
		if err == nil {
			err = os.Chmod(filepath.Join(dir, e.Name()), info.Mode().Perm()&^forOthers)
		}
		if err != nil && word == "" { // nobody else gets as far as the file
			word = fmt.Sprintf("%s stays readable by others: %v. The directory itself is closed to them.",
				filepath.Join(dir, e.Name()), err)
		}
	}
	return word, nil
}

func closeToOthers(dir string, info fs.FileInfo) error {
	refused := func(why string) error {
		return fmt.Errorf("%w: %s is open to others on this machine (mode %04o) and %s; "+
			"name another directory, or close it: chmod 700 %s", ErrDirectory, dir, info.Mode().Perm(), why, dir)
	}
	switch {
	case !isMine(info):
		return refused("is not yours")
	case info.Mode()&fs.ModeSticky != 0:
		return refused("is there for all of them")
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	mine, other := false, ""
	for _, e := range entries {
		if ours(e.Name()) {
			mine = true
		} else if e.Name() != "lost+found" {
			other = e.Name()
		}
	}
	if !mine && other != "" {
		return refused(fmt.Sprintf("holds other things, such as %q", other))
	}
	mode := info.Mode().Perm() &^ forOthers
	if err := os.Chmod(dir, mode); err != nil {
		return refused("cannot be closed: " + err.Error())
	}
	if after, err := os.Stat(dir); err != nil || after.Mode()&forOthers != 0 {
		return refused("its file system cannot close it")
	}
	return nil
}

// ours reports whether a file name in a data directory is one of this program's.
func ours(name string) bool {
	for _, own := range [...]string{databaseName, "." + databaseName, "ops-",
		".probe-", ".new-", ".restore-", ".replay-", ".backup-"} {
		if strings.HasPrefix(name, own) {
			return true
		}
	}
	switch name {
	case keyName, invitesName, closedName, "security.ndjson", "address", "running":
		return true
	}
	return false
}
