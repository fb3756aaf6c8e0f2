package page

import (
	"encoding/json"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/packing"
)

// fromLast begins the note of a figure that was copied from the last job.
const fromLast = figures.FromLast

// lastFigures returns the other job in which an own figure was changed last. The keys are its own figures that this job
// lacks, sorted; nil if there is no such job.
func (r *request) lastFigures() (from job.Job, keys []string) {
	if r.Visitor.Role != job.Owner {
		return from, nil
	}
	from = r.lastWith("override", "value")
	for key, own := range from.Overrides {
		if _, there := r.job.Overrides[key]; own.Value != nil && !there {
			keys = append(keys, key)
		}
	}
	slices.Sort(keys)
	return from, keys
}

// lastWith returns the other job in which the field of any entity of a noun was set last; the zero Job if there is
// none.
func (r *request) lastWith(name, field string) (from job.Job) {
	var latest job.Stamp
	for _, row := range r.rows() {
		j, found := r.findJob(row.ID)
		if !found || row.ID == r.job.ID {
			continue
		}
		for _, entity := range j.State.Entities(name) {
			readings := j.State.Register(entity, field).Readings
			if len(readings) > 0 && latest.Less(readings[0].Stamp) {
				latest, from = readings[0].Stamp, j
			}
		}
	}
	return from
}

// lastBags copies bag sizes and prices from the last job that has any, except those that this job has, two changes
// each. A colour's bags go to the colour of the same name in this job.
func (r *request) lastBags(colours []job.Colour) []job.Change {
	if r.Visitor.Role != job.Owner {
		return nil
	}
	from := r.lastWith("choice/"+strings.TrimSuffix(packing.BagsOf, "/"), "pick")
	var keys []string
	for key := range from.Choices {
		if strings.HasPrefix(key, packing.BagsOf) {
			keys = append(keys, key)
		}
	}
	slices.Sort(keys)
	var changes []job.Change
	for _, key := range keys {
		id := strings.TrimPrefix(key, packing.BagsOf)
		to := id
		if size, balloon := packing.SizeOf(id); balloon && size != "latex" {
			if to = sameColour(&from, id[len(size)+1:], colours); to == "" {
				continue
			}
			to = size + "/" + to
		}
		if r.job.Choices[packing.BagsOf+to] != "" {
			continue
		}
		var price any
		if own := from.Prices[id]; own != "" {
			price = own
		}
		changes = append(changes, job.Put("choice/"+packing.BagsOf+to, "pick", from.Choices[key]),
			job.Put("own/prices/"+to, "bags", price))
	}
	return changes
}

// sameColour returns the id of the colour with the same name as another job's; "" if there is none.
func sameColour(from *job.Job, id string, colours []job.Colour) string {
	named, _ := from.Colour(id)
	for _, c := range colours {
		if strings.EqualFold(c.Name, named.Name) {
			return c.ID
		}
	}
	return ""
}

// lastOwn counts the figures and bags that figureChanges would copy.
func (r *request) lastOwn(colours []job.Colour) int { return len(r.figureChanges(colours)) / 2 }

// figureChanges copies the last job's own figures and bags into this job, or into a new one with these colours, two
// changes each. The notes say where the figures come from.
func (r *request) figureChanges(colours []job.Colour) []job.Change {
	from, keys := r.lastFigures()
	changes := r.lastBags(colours)
	for _, key := range keys {
		own := from.Overrides[key]
		changes = append(changes, job.Put("override/"+key, "value", *own.Value),
			job.Put("override/"+key, "note", noteFromLast(own.Note)))
	}
	return changes
}

// noteFromLast writes the note of a copied figure: that it was copied, and its own note.
func noteFromLast(note string) string {
	switch {
	case strings.HasPrefix(note, fromLast):
		return note
	case note != "":
		note = ": " + note
	}
	return truncate(fromLast+note, job.MostNote)
}

// upcoming lists the other jobs whose doors are still to open.
func (r *request) upcoming() (list []job.Job) {
	now, _ := r.localNow()
	for _, row := range r.rows() {
		j, found := r.findJob(row.ID)
		doors, known := j.Brief.Doors.Time()
		if found && !row.Archived && row.ID != r.job.ID && (!known || doors.Unix()/60 >= now) {
			list = append(list, j)
		}
	}
	return list
}

// upcomingWrites applies changes to own figures, a value and its note each, to the jobs whose doors are still to open.
// It skips figures that were set in those jobs.
func (r *request) upcomingWrites(changes []job.Change) []Write {
	var writes []Write
	for _, j := range r.upcoming() {
		w := Write{Job: j.ID}
		for i := 0; i+1 < len(changes); i += 2 {
			value, note := changes[i], changes[i+1]
			own := j.Overrides[strings.TrimPrefix(value.Entity, "override/")]
			if own.Value != nil && !strings.HasPrefix(own.Note, fromLast) {
				continue
			}
			var text string
			_ = json.Unmarshal(note.Value, &text) // a note is a text
			w.Changes = append(w.Changes, value, job.Put(note.Entity, note.Field, noteFromLast(text)))
		}
		if w.Changes != nil {
			writes = append(writes, w)
		}
	}
	return writes
}
