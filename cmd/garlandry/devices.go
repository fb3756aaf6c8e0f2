package main

import (
	"context"
	"errors"
	"fmt"
	"text/tabwriter"
	"time"

	"garlandry/app/seclog"
	"garlandry/app/store"
)

// deviceLine is a device of the owner as the command line lists it.
type deviceLine struct {
	ID, Name  string
	Seen      int64 // Unix milliseconds
	Ended     int64 // Unix milliseconds; 0: it has access
	Installed bool  // an installed app that got its access from another device
}

// deviceLines lists the owner's devices, newest first.
func deviceLines(data *store.Store) ([]deviceLine, error) {
	all, err := data.OwnerDevices()
	var lines []deviceLine
	for _, d := range all {
		lines = append(lines, deviceLine{d.ID, deviceTitle(d), d.Seen, d.ClosedAt, d.From != ""})
	}
	return lines, err
}

// deviceTitle names a device by its person and by itself, as far as either is known.
func deviceTitle(d store.Session) string {
	if d.Name == "" || d.Label == "" {
		return d.Name + d.Label
	}
	return d.Name + ", " + d.Label
}

// endDevice ends the access of a device of the owner.
func endDevice(ctx context.Context, id string, data *store.Store) error {
	err := data.EndDevice(ctx, data.System("command line"), id)
	if errors.Is(err, store.ErrNotFound) {
		return fmt.Errorf("no device of yours has the id %q; nothing was changed; garlandry invite --list shows them", id)
	}
	return err
}

// sendOrHandle sends a request to the server on the data, or handles it here if none runs.
func sendOrHandle(dir string, req request) (answer response, err error) {
	data, err := store.Open(dir, store.Options{})
	if errors.Is(err, store.ErrInUse) {
		answer, asked := send(dir, req)
		if errors.Is(asked, errNoServer) {
			return answer, err
		}
		return answer, asked
	}
	if err != nil {
		return answer, err
	}
	defer func() { err = errors.Join(err, data.Close()) }()
	return handle(context.Background(), req, data)
}

func (c *inviteCommand) list(s stdio, dir string) error {
	answer, err := sendOrHandle(dir, request{Devices: true})
	if err != nil {
		return err
	}
	lines := answer.Devices
	if len(lines) == 0 {
		fmt.Fprintln(s.out, "No device of yours has access yet.")
		return listClosed(s, dir)
	}
	table := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "ID\tNAME\tLAST SEEN (UTC)\t")
	for _, d := range lines {
		name, state := d.Name, ""
		if name == "" {
			name = "(no name)"
		}
		if d.Installed {
			state = "installed app"
		}
		if d.Ended > 0 {
			state = "ended " + stampOf(d.Ended)
		}
		say(table, "%s\t%s\t%s\t%s\n", d.ID, name, stampOf(d.Seen), state)
	}
	if err := table.Flush(); err != nil {
		return fmt.Errorf("print: %w", err)
	}
	return listClosed(s, dir)
}

// listClosed lists revoked links and ended devices. No restore opens them again.
func listClosed(s stdio, dir string) error {
	all, err := store.ReadClosed(dir)
	if err != nil {
		return err
	}
	kinds := map[string]string{store.ClosedLink: "helper link", store.ClosedDevice: "your device",
		store.ClosedClientLink: "client link"}
	table := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	head := "\nClosed for good, whatever backup is restored:\nSINCE (UTC)\tWHAT\tNAME\tID\n"
	for _, c := range all {
		if kinds[c.Kind] == "" { // used invites and codes are of no interest
			continue
		}
		say(table, head+"%s\t%s\t%s\t%s\n", stampOf(c.At), kinds[c.Kind], c.Name, c.ID)
		head = ""
	}
	if err := table.Flush(); err != nil {
		return fmt.Errorf("print: %w", err)
	}
	return nil
}

func stampOf(ms int64) string { return time.UnixMilli(ms).UTC().Format("2006-01-02 15:04") }

func (c *inviteCommand) end(s stdio, dir string) error {
	if _, err := sendOrHandle(dir, request{End: c.End}); err != nil {
		return err
	}
	noteSecurity(s, dir, seclog.Event{What: seclog.DeviceEnded, Device: c.End})
	fmt.Fprintln(s.out,
		"Ended, with the apps installed from it. What it still sends waits for you on the job's Share page.")
	return nil
}
