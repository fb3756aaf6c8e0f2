package main

import (
	"fmt"
	"io"
	"strings"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

// planJSON is a whole plan with its clock.
type planJSON struct {
	plan.Plan
	Clock clockJSON
}

// clockJSON is a forecast with its times as moments at the venue.
type clockJSON struct {
	Verdict, Sentence string
	Missing           []string
	Blocked           []string `json:",omitempty"` // titles of the cards that nobody can do
	In, Doors         job.Moment
	Odds              float64    // of being done by the doors
	Musts             float64    // of all must-haves being done by then
	Done              job.Moment // by the plan, if every card takes its planned time
	Half, NineInTen   job.Moment // done by then in half of the runs, in nine of ten
	Runs, Tried       int
	People            []forecast.Person
	Over              []clockOverJSON
	Tasks             []clockTaskJSON
	Fixes             []clockFixJSON
	CutLine           []clockCutJSON
}

// clockOverJSON is somebody who works too long: past their time, the evening or the doors.
type clockOverJSON struct {
	Name    string
	Until   job.Moment
	Minutes int
	Past    string
}

type clockFixJSON struct {
	Key       string
	Changes   []clockMitigationJSON
	Odds      float64 // after it
	NineInTen job.Moment
	Reaches   bool // nine in ten
}

type clockMitigationJSON struct{ Title, Cost string }

type clockCutJSON struct {
	Title, Priority string
	Tasks           []string
	Odds            float64 // without this and all above it
	NineInTen       job.Moment
}

type clockTaskJSON struct {
	Key, Title, Piece   string
	Place               task.Place
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

func clockToJSON(j job.Job, p plan.Plan, c *forecast.Forecast) clockJSON {
	out := clockPlanToJSON(c)
	for _, f := range c.Fixes(j, &p, 0) {
		fix := clockFixJSON{Key: f.Key, Odds: f.Forecast.Odds, NineInTen: f.Forecast.At(f.Forecast.Ninety),
			Reaches: f.Reaches}
		for _, l := range f.Mitigations {
			fix.Changes = append(fix.Changes, clockMitigationJSON{l.Title, l.Cost})
		}
		out.Fixes = append(out.Fixes, fix)
	}
	for _, cut := range c.Cuts(&p) {
		out.CutLine = append(out.CutLine, clockCutJSON{cut.Title, cut.Priority, cut.Tasks, cut.Odds, c.At(cut.Ninety)})
	}
	return out
}

// clockPlanToJSON converts the plan and its odds, without fixes and cut line.
func clockPlanToJSON(c *forecast.Forecast) clockJSON {
	out := clockJSON{Verdict: c.Verdict, Sentence: c.Sentence, Missing: c.Missing, Odds: c.Odds, Musts: c.Musts,
		Runs: c.Runs, Tried: c.Tried, People: c.People}
	for i := range c.Blocked {
		out.Blocked = append(out.Blocked, c.Blocked[i].Title)
	}
	if !c.Planned() {
		return out
	}
	out.In, out.Doors, out.Done = c.At(c.In), c.At(c.Doors), c.At(c.Finish)
	out.Half, out.NineInTen = c.At(c.Half), c.At(c.Ninety)
	for _, o := range c.Over {
		out.Over = append(out.Over, clockOverJSON{c.People[o.Person].Name, c.At(o.Until), o.Minutes, o.Past})
	}
	for _, t := range c.Tasks {
		task := clockTaskJSON{Key: t.Key, Title: t.Title, Piece: t.Piece, Place: t.Place,
			Start: c.At(t.Start), End: c.At(t.End), StartBy: c.At(t.StartBy), Hands: t.Hands, WaitsFor: t.WaitsFor,
			Critical: t.Critical}
		for _, s := range t.Spells {
			task.People = append(task.People, clockSpellJSON{c.People[s.Person].Name, c.At(s.From), c.At(s.To)})
		}
		out.Tasks = append(out.Tasks, task)
	}
	return out
}

// printClock prints who does what when, by start, then the fixes and the cut line.
func printClock(w io.Writer, j job.Job, p plan.Plan, c *forecast.Forecast) {
	say(w, "\nCLOCK\n  %s\n", c.Sentence)
	for _, m := range c.Missing[min(1, len(c.Missing)):] {
		say(w, "  %s\n", m)
	}
	if !c.Planned() {
		say(w, "  Rough check: %s\n", p.Window.Sentence)
	}
	for i := range c.Blocked {
		say(w, "  %s: %s\n", c.Blocked[i].Title, c.Blocked[i].Why())
	}
	for _, says := range append(c.Overruns(), c.Sinks()...) {
		say(w, "  %s\n", says)
	}
	for _, t := range c.ByStart() {
		say(w, "  %s\t%s\t%s\t%s\n", strings.Replace(string(c.At(t.Start)), "T", " ", 1), till(c.At(t.Start), c.At(t.End)),
			t.Title, strings.Join(c.Names(t), ", "))
	}
	for i, f := range c.Fixes(j, &p, 0) {
		if i == 0 {
			fmt.Fprint(w, "\nWHAT WOULD HELP\n")
		}
		var titles, costs []string
		for _, l := range f.Mitigations {
			titles, costs = append(titles, l.Title), append(costs, l.Cost)
		}
		say(w, "  %s\t%s on time\tsafe bet %s\t%s\n", strings.Join(titles, " + "), forecast.Percent(f.Forecast.Odds),
			string(f.Forecast.At(f.Forecast.Ninety))[11:],
			strings.Join(append(costs, withoutWords(f.Forecast)...), "; "))
	}
	for i, cut := range c.Cuts(&p) {
		if i == 0 {
			fmt.Fprint(w, "\nLEAVE OUT FIRST\n")
		}
		say(w, "  %s\t%s\t%s on time\tsafe bet %s\n", cut.Title, cut.Priority, forecast.Percent(cut.Odds),
			string(c.At(cut.Ninety))[11:])
	}
}

// till writes when something ends: the time of day, with the day if it is not the day of the start.
func till(start, end job.Moment) string {
	if start[:10] == end[:10] {
		return string(end[11:])
	}
	return strings.Replace(string(end), "T", " ", 1)
}

// withoutWords says what a fix still leaves undone, if anything.
func withoutWords(c *forecast.Forecast) []string {
	if without := c.Without(); without != "" {
		return []string{without}
	}
	return nil
}
