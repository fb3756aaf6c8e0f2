package main

import (
	"fmt"
	"io"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// planJSON is a whole plan with its clock.
type planJSON struct {
	plan.Plan
	Clock clockJSON
}

// clockJSON is a clock with its times written as moments at the venue.
type clockJSON struct {
	Verdict, Sentence string
	Missing           []string
	In, Doors         job.Moment
	Odds              float64    // of being done by the doors
	Done              job.Moment // by the plan, if nothing strays
	Half, NineInTen   job.Moment // done by then in half of the runs, in nine of ten
	Runs, Tried       int
	People            []plan.ClockPerson
	Tasks             []clockTaskJSON
}

type clockTaskJSON struct {
	Key, Title, Piece   string
	Place               plan.Place
	Start, End, StartBy job.Moment
	Hands               int
	People              []clockSpellJSON
	WaitsFor            []string
	Critical            float64
}

type clockSpellJSON struct {
	Name     string
	From, To job.Moment
}

func clockToJSON(_ job.Job, _ plan.Plan, c *plan.Clock) clockJSON {
	out := clockJSON{Verdict: c.Verdict, Sentence: c.Sentence, Missing: c.Missing, Odds: c.Odds, Runs: c.Runs, Tried: c.Tried, People: c.People}
	if !c.Planned() {
		return out
	}
	out.In, out.Doors, out.Done, out.Half, out.NineInTen = c.At(c.In), c.At(c.Doors), c.At(c.Finish), c.At(c.Half), c.At(c.Ninety)
	for _, t := range c.Tasks {
		task := clockTaskJSON{Key: t.Key, Title: t.Title, Piece: t.Piece, Place: t.Place, Start: c.At(t.Start), End: c.At(t.End), StartBy: c.At(t.StartBy), Hands: t.Hands, WaitsFor: t.WaitsFor, Critical: t.Critical}
		for _, s := range t.Spells {
			task.People = append(task.People, clockSpellJSON{c.People[s.Person].Name, c.At(s.From), c.At(s.To)})
		}
		out.Tasks = append(out.Tasks, task)
	}
	return out
}

// printClock writes who does what when, by start.
func printClock(w io.Writer, _ job.Job, p plan.Plan, c *plan.Clock) {
	fmt.Fprintf(w, "\nCLOCK\n  %s\n", c.Sentence)
	if !c.Planned() {
		for _, m := range c.Missing {
			fmt.Fprintf(w, "  %s\n", m)
		}
		fmt.Fprintf(w, "  %s\n", p.Window.Sentence)
		return
	}
	for _, t := range c.ByStart() {
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n", strings.Replace(string(c.At(t.Start)), "T", " ", 1), string(c.At(t.End))[11:], t.Title, strings.Join(c.Names(t), ", "))
	}
}
