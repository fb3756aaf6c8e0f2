package main

import (
	"context"
	"errors"
	"fmt"
	"text/tabwriter"

	"garlandry/app/store"
)

// asideCommand sets operations aside.
type asideCommand struct {
	dataFlag
	Job  string `help:"The job: the part of its address after /jobs/." required:"" placeholder:"ID"`
	Op   string `help:"The operation to set aside. Without it, lists what is unusual." placeholder:"ID"`
	Undo bool   `help:"Put the operation back: it counts again."`
	Why  string `help:"The reason, for the record." placeholder:"TEXT"`
}

// asideRequest is the request of the command.
type asideRequest struct {
	Job, Op, Why string
	Undo         bool
}

// Run lists what is unusual in a job, sets an operation aside, or puts it back. The server may be running.
func (c *asideCommand) Run(s stdio) error {
	if c.Op == "" && (c.Undo || c.Why != "") {
		return usageError{errors.New("--undo and --why need --op; without --op the command lists what is unusual")}
	}
	dir, err := c.existing()
	if err != nil {
		return err
	}
	answer, err := sendOrHandle(dir, request{Aside: &asideRequest{Job: c.Job, Op: c.Op, Why: c.Why, Undo: c.Undo}})
	if err != nil {
		return err
	}
	if c.Op != "" {
		if c.Undo {
			fmt.Fprintln(s.out, "Put back. It counts again once phones have synced.")
		} else {
			fmt.Fprintln(s.out, "Set aside. It stops counting once phones have synced; --undo puts it back.")
		}
		return nil
	}
	return listSuspects(s, answer.Aside)
}

// handle lists what is unusual in a job, or sets an operation aside or puts it back.
func (r *asideRequest) handle(ctx context.Context, data *store.Store) ([]store.Suspect, error) {
	if r.Op == "" {
		return data.Suspects(r.Job)
	}
	err := data.SetAside(ctx, data.System("command line"), r.Job, r.Op, !r.Undo, r.Why)
	if errors.Is(err, store.ErrNotFound) {
		return nil, fmt.Errorf("job %q has no operation %q; nothing was changed; garlandry aside --job lists what is unusual",
			r.Job, r.Op)
	}
	return nil, err
}

// listSuspects prints a table of unusual operations.
func listSuspects(s stdio, all []store.Suspect) error {
	if len(all) == 0 {
		fmt.Fprintln(s.out, "Nothing unusual in this job.")
		return nil
	}
	table := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "OPERATION\tMADE BY\tWHEN (UTC)\tKIND\tABOUT\tBYTES\t")
	for _, x := range all {
		state := ""
		switch {
		case x.Aside:
			state = "set aside " + stampOf(x.At) + " by " + x.By
			if x.Why != "" {
				state += ": " + x.Why
			}
		case x.Harmful:
			state = "not sent to phones"
		}
		say(table, "%s\t%s\t%s\t%s\t%s\t%d\t%s\n", x.Rec.ID, x.Rec.Author.Name, stampOf(x.Rec.Effective), x.Rec.Kind,
			x.Rec.Entity, x.Bytes, state)
	}
	return table.Flush()
}
