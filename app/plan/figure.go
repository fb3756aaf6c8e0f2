package plan

import "garlandry/app/job"

// figures are the trade's tables as one job uses them: defaults, the user's own values on top, and a record of which
// were looked up.
type figures struct {
	rows      []Figure
	index     map[string]int
	used      []bool
	overrides map[string]job.Override
}

// newFigures lays the user's own values over the tables. A value outside its figure's range counts as the nearer end.
func newFigures(overrides map[string]job.Override) *figures {
	f := &figures{rows: tables(), overrides: overrides}
	f.index = make(map[string]int, len(f.rows))
	f.used = make([]bool, len(f.rows))
	for i := range f.rows {
		row := &f.rows[i]
		f.index[row.Key] = i
		row.Value = row.Default
		if own, given := overrides[row.Key]; given && own.Value != nil {
			row.Value = min(max(*own.Value, row.Min), row.Max)
			row.Overridden = true
			row.Source = Source{own.Note, Measured}
		}
	}
	return f
}

// get is the value of a figure, and marks it as used. A key that is in no table is 0 and shows up in the list without
// a label, which a test refuses.
func (f *figures) get(key string) float64 { return f.row(key).Value }

func (f *figures) row(key string) Figure {
	i, known := f.index[key]
	if !known {
		i = len(f.rows)
		f.index[key] = i
		f.rows = append(f.rows, Figure{Key: key})
		f.used = append(f.used, false)
	}
	f.used[i] = true
	return f.rows[i]
}

// list is the figures that were used, in the order of the tables.
func (f *figures) list() []Figure {
	var used []Figure
	for i, row := range f.rows {
		if f.used[i] {
			used = append(used, row)
		}
	}
	return used
}

// Figures is every figure of the trade's tables with its default, for a page that lists what may be overruled.
func Figures() []Figure {
	rows := tables()
	for i := range rows {
		rows[i].Value = rows[i].Default
	}
	return rows
}

// tables is every table, in the order in which a page lists them. A new table is one file and one line here.
func tables() []Figure {
	rows := make([]Figure, 0, 120)
	for _, table := range []func() []Figure{baseTable, tieTable, sectionTable, shapeTable, breakageTable, timeTable, handsTable, supplyTable} {
		rows = append(rows, table()...)
	}
	return rows
}

// practice is a figure of common practice, without a source.
func practice(key, group, label string, value, least, most float64, unit string) Figure {
	return Figure{Key: key, Group: group, Label: label, Default: value, Min: least, Max: most, Unit: unit,
		Source: Source{"common practice, no source", CommonPractice}}
}

// remembered is a figure from memory.
func remembered(key, group, label string, value, least, most float64, unit string) Figure {
	f := practice(key, group, label, value, least, most, unit)
	f.Source = Source{"from memory, no source", FromMemory}
	return f
}
