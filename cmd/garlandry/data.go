package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
)

// dataFlag names the data directory of a command that does not serve.
type dataFlag struct {
	Data string `help:"Data directory. Default: garlandry in your user's configuration directory." placeholder:"DIR"`
}

func (d dataFlag) directory() (string, error) { return (&serveCommand{Data: d.Data}).directory() }

func (d dataFlag) existing() (string, error) {
	dir, err := d.directory()
	if err != nil {
		return "", err
	}
	if _, err := os.Stat(filepath.Join(dir, "garlandry.db")); err != nil {
		return "", usageError{fmt.Errorf("there is no data in %s; name the directory with --data", dir)}
	}
	return dir, nil
}

type backupCommand struct {
	dataFlag
	File string `arg:"" help:"Where to write the copy. The file must not exist."`
}

// Run copies the data and checks the copy.
func (c *backupCommand) Run(s stdio) error {
	dir, err := c.existing()
	if err != nil {
		return err
	}
	if folder := filepath.Dir(c.File); !isFolder(folder) {
		return usageError{
			fmt.Errorf("there is no folder %s to write the copy into; make it first, or name another place", folder),
		}
	}
	if err := copyData(s, dir, c.File); err != nil {
		return err
	}
	say(s.out, "Copied to %s and checked, with every seal. Keep %s beside it: "+
		"without it only your own phones can send what a restore misses.\n", c.File, filepath.Join(dir, "workspace.key"))
	return nil
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// copyData copies the data, or asks the server to do so if it has the data open.
func copyData(s stdio, dir, file string) (err error) {
	data, err := store.Open(dir, store.Options{})
	if errors.Is(err, store.ErrInUse) {
		if asked := requestBackup(dir, file); !errors.Is(asked, errNoServer) {
			return asked
		}
		return err
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, data.Close()) }()
	note(s, data.Repairs()...)
	return data.Backup(context.Background(), file)
}

type restoreCommand struct {
	dataFlag
	File    string `arg:"" optional:"" help:"The backup."`
	Journal string `help:"Rebuild the data from this journal, into an empty data directory." placeholder:"PATH"`
}

// Run replaces the data with a backup, or rebuilds it from the journal.
func (c *restoreCommand) Run(s stdio) error {
	if (c.File == "") == (c.Journal == "") {
		return usageError{errors.New("name a backup, or a journal with --journal, not both")}
	}
	dir, err := c.directory()
	if err != nil {
		return err
	}
	if c.Journal != "" {
		return replay(s, c.Journal, dir)
	}
	restored, err := store.Restore(context.Background(), c.File, dir, store.Options{})
	if errors.Is(err, os.ErrNotExist) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	noteSecurity(s, dir, seclog.Event{What: seclog.Restored})
	printRestored(s, restored)
	return nil
}

// printRestored prints the result of a restore.
func printRestored(s stdio, r store.Restored) {
	note(s, r.Repair)
	fmt.Fprintln(s.out, "Restored. Start the server; phones send what came after the backup.")
	switch r.Seals {
	case store.SealsNoKey:
		fmt.Fprintln(s.out, "Records and their chain were checked. "+
			"Their seals were not: there is no workspace.key here or beside the backup.")
	case store.SealsOtherKey:
		fmt.Fprintln(s.out, "Records and their chain were checked. "+
			"Their seals were not: they were made with another workspace.key than the one here.")
	case store.SealsGood:
		fmt.Fprintln(s.out, "Every record was checked, with its seal.")
	}
	if r.Links+r.Devices > 0 {
		say(s.out, "Kept closed: %s and %s that were revoked or ended after the backup. "+
			"garlandry invite --list shows them.\n", many(r.Links, "link"), many(r.Devices, "device"))
	}
	if r.Held > 0 {
		say(s.out, "Waiting for you on the job's Share page: %s sent after the backup.\n",
			many(r.Held, "operation"))
	}
	if r.Kept != "" {
		say(s.out, "The data from before the restore is in %s\n", r.Kept)
	}
}

// replay rebuilds the data from a journal and prints the result.
func replay(s stdio, journal, dir string) error {
	result, err := store.Replay(context.Background(), journal, dir, store.Options{})
	if errors.Is(err, os.ErrNotExist) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	noteSecurity(s, dir, seclog.Event{What: seclog.Restored, N: result.Operations})
	note(s, result.Repair)
	say(s.out, "Rebuilt in %s from the journal, and checked: %s in %s.\n", dir, many(result.Operations, "operation"),
		many(result.Jobs, "job"))
	if n := len(result.Unreadable); n > 0 {
		say(s.out, "%s could not be read and were left out: %s.\n", many(n, "line"), strings.Join(result.Unreadable, ", "))
		if result.CutOff {
			fmt.Fprintln(s.out, "The last line is cut off, as after a power failure. Nobody was told that it was saved.")
		}
	}
	if result.Held > 0 {
		say(s.out, "Waiting for you on the job's Share page: %s.\n", many(result.Held, "operation"))
	}
	for _, why := range result.Refused {
		say(s.out, "Not taken: %s\n", why)
	}
	if result.NewKey {
		fmt.Fprintln(s.out,
			"There was no workspace.key, so a new one was made: only the owner's phones can send what is missing.")
	}
	fmt.Fprintln(s.out, "Start the server and open the new owner link; phones send what the journal lacks. "+
		"Helpers need new links: the journal has none. What was revoked or ended stays so.")
	return nil
}

func many(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

type inviteCommand struct {
	dataFlag
	Address string `help:"Address of the app. Default: where the server last ran." placeholder:"URL"`
	List    bool   `help:"List your devices, when they were last seen, and what was closed for good." xor:"what"`
	End     string `help:"End a device of yours, such as a lost phone." placeholder:"ID" xor:"what"`
}

// Run makes an owner link, lists the owner's devices, or ends one. The server may be running.
func (c *inviteCommand) Run(s stdio) error {
	dir, err := c.existing()
	if err != nil {
		return err
	}
	switch {
	case c.List:
		return c.list(s, dir)
	case c.End != "":
		return c.end(s, dir)
	}
	token, err := store.Invite(dir, store.Options{})
	if err != nil {
		return err
	}
	noteSecurity(s, dir, seclog.Event{What: seclog.InviteMade})
	server := strings.TrimRight(c.Address, "/")
	if server == "" {
		server = lastAddress(dir)
	}
	welcome(s.out, []string{server}, address.OwnerInvite(token), dir)
	return nil
}
