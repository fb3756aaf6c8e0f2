package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"garlandry/app/store"
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
	File string `arg:"" help:"Where to write the copy; it must not be there yet."`
}

// Run copies the data and checks the copy.
func (c *backupCommand) Run(s streams) error {
	dir, err := c.existing()
	if err != nil {
		return err
	}
	if err := copyData(dir, c.File); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "Copied to %s and checked. Keep %s beside it: without it only your own phones can hand back what a restore misses.\n", c.File, filepath.Join(dir, "workspace.key"))
	return nil
}

// copyData copies data that nobody has open itself, and asks the server that has it open otherwise.
func copyData(dir, file string) (err error) {
	data, err := store.Open(dir, store.Options{})
	if errors.Is(err, store.ErrInUse) {
		if asked := askForCopy(dir, file); !errors.Is(asked, errNobodyCopies) {
			return asked
		}
		return err
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, data.Close()) }()
	return data.Backup(context.Background(), file)
}

type restoreCommand struct {
	dataFlag
	File string `arg:"" help:"The backup."`
}

// Run puts a backup in the place of the data.
func (c *restoreCommand) Run(s streams) error {
	dir, err := c.directory()
	if err != nil {
		return err
	}
	kept, err := store.Restore(context.Background(), c.File, dir, store.Options{})
	if errors.Is(err, os.ErrNotExist) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	fmt.Fprintln(s.out, "Restored. Start the server; phones hand back what came after the backup.")
	if kept != "" {
		fmt.Fprintln(s.out, "What was there before is kept as", kept)
	}
	return nil
}

type inviteCommand struct {
	dataFlag
	Address string `help:"Address of the app." default:"http://127.0.0.1:8080" placeholder:"URL"`
}

// Run makes an owner link; the server may be running.
func (c *inviteCommand) Run(s streams) error {
	dir, err := c.existing()
	if err != nil {
		return err
	}
	token, err := store.Invite(dir, store.Options{})
	if err != nil {
		return err
	}
	welcome(s.out, c.Address, c.Address+"/j?as=owner#"+token, dir)
	return nil
}
