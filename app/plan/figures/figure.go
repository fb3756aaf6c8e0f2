// Package figures holds the trade's tables: minutes, breakage, supplies and whatever else a plan uses. Each value has a
// default, a range and a mark of how far to trust it. A job's own values replace the defaults. Start at [New].
package figures

import "garlandry/app/job"

// Table holds the trade's tables for one job, with the user's own values, and records which figures were used.
type Table struct {
	rows      []Figure
	index     map[string]int
	used      []bool
	overrides map[string]job.Override
}

// New returns the tables with the user's own values. It moves a value outside its range to the nearest bound. A value
// that was learnt has the range of [Figure.LearntRange]: earlier versions learnt without a limit.
func New(overrides map[string]job.Override) *Table {
	f := &Table{rows: tables(), overrides: overrides}
	f.index = make(map[string]int, len(f.rows))
	f.used = make([]bool, len(f.rows))
	for i := range f.rows {
		row := &f.rows[i]
		f.index[row.Key] = i
		row.Value = row.Default
		if own, given := overrides[row.Key]; given && own.Value != nil {
			least, most := row.Min, row.Max
			if learnt(own.Note) {
				least, most = row.LearntRange()
			}
			row.Value = min(max(*own.Value, least), most)
			row.Overridden = true
			row.Source = Source{Text: own.Note, Mark: Measured}
		}
	}
	return f
}

// Get returns the value of a figure and marks it as used. For an unknown key it returns 0 and lists a figure without a
// label, which a test finds.
func (f *Table) Get(key string) float64 { return f.Row(key).Value }

// Row returns a figure and marks it as used, see [Table.Get].
func (f *Table) Row(key string) *Figure {
	i, known := f.index[key]
	if !known {
		i = len(f.rows)
		f.index[key] = i
		f.rows = append(f.rows, Figure{Key: key})
		f.used = append(f.used, false)
	}
	f.used[i] = true
	return &f.rows[i]
}

// UseClock marks the figures of the forecast as used, so that they are listed and can be overridden.
func (f *Table) UseClock() {
	for _, e := range append(strayEntries(), clockEntries()...) {
		f.Get(e.key)
	}
}

// List returns the used figures in the order of the tables.
func (f *Table) List() []Figure {
	var used []Figure
	for i, row := range f.rows {
		if f.used[i] {
			used = append(used, row)
		}
	}
	return used
}

// All returns every figure with its default.
func All() []Figure {
	rows := tables()
	for i := range rows {
		rows[i].Value = rows[i].Default
	}
	return rows
}

// tables returns the figures of every sheet, each with its mark as its source.
func tables() []Figure {
	rows := make([]Figure, 0, 200)
	for _, s := range sheets {
		entries := s.entries
		switch s.group {
		case "Minutes":
			entries = timeEntries()
		case "Rubber":
			entries = rubberEntries()
		case "Spread of times":
			entries = strayEntries()
		}
		for _, e := range entries {
			rows = append(rows, Figure{Key: e.key, Group: s.group, Label: e.label, Default: e.value, Min: e.least,
				Max: e.most, Unit: e.unit, Source: Source{Text: string(e.mark) + ", no source", Mark: e.mark}})
		}
	}
	return rows
}

// Line is one step of a calculation, with its source.
type Line struct {
	What, How, Result string
	Source            Source
}

// Source says where a figure comes from.
type Source struct {
	Text string // "rings turned against each other touch at 0.8409 d"
	Mark Mark
}

// Mark says how far to trust a figure.
type Mark string

// The marks.
const (
	Published      Mark = "published"
	CommonPractice Mark = "common practice"
	FromMemory     Mark = "from memory"
	Measured       Mark = "measured by you"
)

// Figure is one value of the trade tables as this job uses it.
type Figure struct {
	Key        string // "minutes/duplet/11/beginner"; the override is entity "override/"+Key
	Group      string // heading it is listed under
	Label      string
	Value      float64
	Default    float64
	Min, Max   float64
	Unit       string
	Source     Source
	Overridden bool
}

// Usual is the source of rules without a figure.
var Usual = Source{Text: "common practice, no source", Mark: CommonPractice}

// Arithmetic is the source of lines that only add or multiply other lines. It has no mark: the other lines have theirs.
func Arithmetic() Source { return Source{Text: "arithmetic"} }
