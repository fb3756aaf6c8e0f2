package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/calc/order"
)

// fromLast begins the note of a figure that a new job took over from the job before it.
const fromLast = "from your last job"

// mostNote is the longest note of a figure, in letters.
const mostNote = 200

// lastFigures gives the job in which an own figure was last set or given back to the table, with its own figures; the
// keys are sorted, and none if there is no such job.
func (a *ask) lastFigures() (from job.Job, keys []string) {
	if a.Visitor.Role != job.Owner {
		return from, nil
	}
	var latest job.Stamp
	for _, row := range a.rows() {
		j, found := a.findJob(row.ID)
		if !found {
			continue
		}
		for _, entity := range j.State.Entities("override") {
			readings := j.State.Register(entity, "value").Readings
			if len(readings) > 0 && latest.Less(readings[0].Stamp) {
				latest, from = readings[0].Stamp, j
			}
		}
	}
	for key, own := range from.Overrides {
		if own.Value != nil {
			keys = append(keys, key)
		}
	}
	order.Strings(keys)
	return from, keys
}

// figureChanges takes the own figures of the last job over into a new one. Their notes say where they are from, once,
// and how they were known there.
func (a *ask) figureChanges() []job.Change {
	from, keys := a.lastFigures()
	var changes []job.Change
	for _, key := range keys {
		own := from.Overrides[key]
		note := own.Note
		if !strings.HasPrefix(note, fromLast) {
			if note != "" {
				note = ": " + note
			}
			note = cut(fromLast+note, mostNote)
		}
		changes = append(changes, job.Put("override/"+key, "value", *own.Value), job.Put("override/"+key, "note", note))
	}
	return changes
}
