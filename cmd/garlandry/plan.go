package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"text/tabwriter"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

type planCommand struct {
	File string `arg:"" help:"Job file, or - for standard input."`
	JSON bool   `help:"Print the whole plan as JSON."`
}

// Run reads the job file and prints its plan.
func (c *planCommand) Run(s stdio) error {
	j, err := readJob(c.File, s.in)
	if err != nil {
		return err
	}
	p := plan.Make(j)
	// Starting from the usual plan, it is never worse than what a page shows.
	clock := forecast.New(j, p, 0, forecast.Patient, forecast.New(j, p, 0, forecast.Usual, nil))
	if c.JSON {
		return printJSON(s, planJSON{p, clockToJSON(j, p, clock)})
	}
	return printPlan(s, j, p, clock)
}

// readJob reads a job file whose pieces can be counted.
func readJob(name string, in io.Reader) (job.Job, error) {
	data, err := readFile(name, in)
	if err != nil {
		return job.Job{}, usageError{err}
	}
	changes, err := job.DecodeFile(data)
	if errors.Is(err, job.ErrNewer) {
		return job.Job{}, usageError{fmt.Errorf("%s: garlandry: %w", name, err)}
	}
	if err != nil {
		return job.Job{}, usageError{fmt.Errorf("%s: %w", name, err)}
	}
	j := job.Preview(changes)
	if err := plan.CheckSizes(j); err != nil {
		return job.Job{}, usageError{fmt.Errorf("%s: %w", name, err)}
	}
	return j, nil
}

func readFile(name string, in io.Reader) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(io.LimitReader(in, job.MaxFileBytes+1))
	}
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, fmt.Errorf("read the job file: %w", err)
	case info.IsDir():
		return nil, fmt.Errorf("read the job file: %s is a directory", name)
	case info.Size() > job.MaxFileBytes:
		return nil, errors.New("read the job file: it is larger than any job file may be")
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("read the job file: %w", err)
	}
	return data, nil
}

func printPlan(s stdio, j job.Job, p plan.Plan, clock *forecast.Forecast) error {
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	say(w, "%s\n%s\n", j.Brief.Title, clock.Sentence)
	for _, n := range p.Notes {
		if n.Urgent {
			say(w, "%s\n", n.Text)
		}
	}
	say(w, "\nPIECES\n")
	for _, c := range p.Pieces {
		say(w, "  %s\t%d clusters\t%d balloons\t%d accents\t%s\n", c.Piece.Name, c.Clusters, c.Balloons, c.Accents, c.Recipe)
		for i := range c.Layers {
			on := &c.Layers[i]
			say(w, "    %s\t%d clusters\t%d balloons\t\t%s\n", on.Name, on.Clusters, on.Balloons, on.Recipe)
		}
	}
	fmt.Fprintln(w, "\nBALLOONS")
	for _, b := range p.Balloons {
		say(w, "  %d in\t%s\t%s\tneed %d\tspare %d\tbuy %d\n", b.SizeIn, b.Colour.Name, b.Colour.Finish, b.Need, b.Spares,
			b.Buy)
	}
	say(w, "  ties (260)\t\t\tneed %d\n", p.Ties)
	for _, bag := range p.Pack {
		say(w, "\nPACK: %s\n", bag.Name)
		for _, l := range bag.Lines {
			say(w, "  %s\t%s\t%s\n", strings.TrimSpace(strconv.Itoa(l.Need)+" "+l.Unit), l.Name, l.Reason)
		}
	}
	place := task.Place("")
	for _, c := range p.Cards {
		if c.Place != place {
			place = c.Place
			say(w, "\nCARDS: %s\n", place)
		}
		say(w, "  %s\t%s\t%.0f min\t%d+ hands\n", c.Title, cardCount(c), max(1, c.Minutes), c.HandsMin)
	}
	printClock(w, j, p, clock)
	for i, n := range p.Notes {
		if i == 0 {
			fmt.Fprintln(w, "\nNOTES")
		}
		say(w, "  %s\n", n.Text)
	}
	if err := w.Flush(); err != nil {
		return fmt.Errorf("print: %w", err)
	}
	return nil
}

func cardCount(c task.Card) string {
	if c.Count == 0 {
		return "tick"
	}
	return fmt.Sprintf("%d %s", c.Count, c.Unit)
}
