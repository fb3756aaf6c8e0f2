package figures

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
)

// work is one row of the time table: minutes of a beginner and of a practised person.
type work struct {
	key, label          string
	beginner, practised float64
	mark                Mark
}

// works are the rows of the time table, except duplets, see [dupletWork].
var works = []work{
	{"twist", "Twist a cluster", 0.6, 0.3, CommonPractice},
	{"join", "Join a cluster to the base", 1, 0.5, CommonPractice},
	{"fix-cluster", "Fix a cluster or accent on site", 1, 0.5, CommonPractice},
	{"frame", "Put up a frame, two people", 15, 10, CommonPractice},
	{"stand", "Put up a column stand or number frame", 4, 3, FromMemory},
	{"cover", "Panels or a cloth on a frame, two people", 15, 8, CommonPractice},
	{"shape-foot", "Fix and shape a foot of base, two people", 2, 1.2, CommonPractice},
	{"shine-10ft", "Shine spray on ten feet", 4, 3, CommonPractice},
	{"sign", "Hang a sign, two people", 15, 10, CommonPractice},
	{"car", "Load or unload the car, one trip", 20, 15, CommonPractice},
	{"carry", "Carry a section through a narrow doorway, two people", 3, 2, FromMemory},
	{"down-10ft", "Take down ten feet of garland", 10, 6, CommonPractice},
	{"down-80", "Take down eighty balloons of another piece", 10, 6, FromMemory},
	{"helium", "Fill, tie and ribbon one balloon with helium", 1.2, 0.8, FromMemory},
	{"set-out", "Set out one bouquet or table piece", 2, 1.5, FromMemory},
	{"shop", "Get the balloons together and check them", 20, 15, FromMemory},
	{"test-bar", "Test a top bar at home", 20, 15, FromMemory},
	{"pack-line", "Pack one line of the list", 0.6, 0.4, FromMemory},
	{"look", "Walk the room", 6, 5, FromMemory},
	{"tidy", "Hide ties, sweep, look from the door", 15, 10, FromMemory},
	{"strike", "Take apart a frame, two people", 10, 6, FromMemory},
	{"strike-stand", "Take apart a column stand or number frame", 2, 1.5, FromMemory},
	{"sweep", "Sweep and hand the room back", 15, 10, FromMemory},
}

// timeEntries returns the minutes of beginners and practised people for each row.
func timeEntries() []entry {
	rows := make([]entry, 0, 2*(len(works)+len(job.Sizes)))
	for _, size := range job.Sizes {
		rows = dupletWork(size).rows(rows)
	}
	for _, w := range works {
		rows = w.rows(rows)
	}
	return rows
}

// rows adds the row's two figures to a list.
func (w work) rows(list []entry) []entry {
	return append(list, w.row(Beginner, w.beginner), w.row(Practised, w.practised))
}

// row returns the figure for one skill. It is at most 240 minutes, and at least a tenth of the table's: no work takes
// no time. From memory, no source.
func (w work) row(s Skill, minutes float64) entry {
	least := float64(int(float64(minutes*10)+0.5)) / 100
	return entry{"minutes/" + w.key + "/" + string(s), w.label + ", " + string(s), minutes, least, 240,
		"minutes", w.mark}
}

// DupletKey returns the row for duplets of a size: the next size in the table that is not smaller.
func DupletKey(sizeIn int) string {
	for _, size := range job.Sizes {
		if size >= sizeIn {
			return "duplet/" + strconv.Itoa(size)
		}
	}
	return "duplet/" + strconv.Itoa(job.Sizes[len(job.Sizes)-1])
}

// dupletWork returns the time for one duplet: fill, size, tie. The trade's table has 5, 11 and 18 inch. Sizes between
// take the nearer row; the two largest are from memory.
func dupletWork(size int) work {
	w := work{key: "duplet/" + strconv.Itoa(size), label: "One duplet of " + phrase.Inch(size), mark: FromMemory}
	switch {
	case size <= 5:
		w.beginner, w.practised = 0.8, 0.4
	case size <= 12:
		w.beginner, w.practised = 1, 0.5
	case size <= 18:
		w.beginner, w.practised = 2, 1.2
	case size <= 24:
		w.beginner, w.practised = 3, 2
	default:
		w.beginner, w.practised = 6, 4
	}
	if size == 5 || size == 11 || size == 18 {
		w.mark = CommonPractice
	}
	return w
}
