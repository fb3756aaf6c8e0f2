package figures

import (
	"math"
	"strings"

	"garlandry/calc/crew"
)

// How notes of own figures begin: one that was learnt from a job, and one that was copied from another job. Stored
// notes have these words, so they never change.
const (
	SeenAt   = "Seen at "
	FromLast = "from your last job"
)

// learnt reports whether a note is that of a figure which was learnt, here or in another job.
func learnt(note string) bool {
	return strings.HasPrefix(strings.TrimPrefix(note, FromLast+": "), SeenAt)
}

// rounding is what limits in hundredths forgive.
const rounding = 1e-6

// LearntRange returns how far learning may move a figure: to a third or three times the table's own value, in
// hundredths.
func (f *Figure) LearntRange() (least, most float64) {
	least = math.Ceil(float64(f.Default*100)/crew.Furthest-rounding) / 100
	most = math.Floor(float64(f.Default*100)*crew.Furthest+rounding) / 100
	return max(least, f.Min), min(most, f.Max)
}
