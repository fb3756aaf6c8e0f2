package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/calc/order"
)

// fromLast begins the note of a figure that a new job took over from the job before it.
const fromLast = "from your last job"

// lastFigures gives the job beside this one in which an own figure was last set or given back to the table, with its own figures; the
// keys are sorted, those that this job has no figure of its own for, and none if there is no such job.
func (a *ask) lastFigures() (from job.Job, keys []string) {
	if a.Visitor.Role != job.Owner {
		return from, nil
	}
	var latest job.Stamp
	for _, row := range a.rows() {
		j, found := a.findJob(row.ID)
		if !found || row.ID == a.job.ID {
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
		if _, there := a.job.Overrides[key]; own.Value != nil && !there {
			keys = append(keys, key)
		}
	}
	order.Strings(keys)
	return from, keys
}

// figureChanges takes the own figures of the last job over into this one or a new one, two changes each. Their notes say where they are from, once,
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
			note = cut(fromLast+note, job.MostNote)
		}
		changes = append(changes, job.Put("override/"+key, "value", *own.Value), job.Put("override/"+key, "note", note))
	}
	return changes
}
