package page

import (
	"slices"
	"strings"

	"garlandry/app/job"
)

// copyJob makes a new job with the design of this one: palette, pieces, kit, crew, own lines and figures. It leaves out
// the date, the times, the client and all progress.
func copyJob(r *request) *Reply {
	data, err := job.EncodeFile(r.job)
	if err != nil {
		return r.trouble("Not copied", "The job could not be read: "+err.Error()+".", "Try again.")
	}
	all, err := job.DecodeFile(data)
	if err != nil {
		return r.trouble("Not copied", "The job has an error: "+importSays(err)+".",
			"Fix that and try again.")
	}
	changes := slices.DeleteFunc(all, func(c job.Change) bool { return !copied(c) })
	changes = append(changes, job.Put("brief", "title", truncate(r.title()+" (copy)", 120)))
	return r.create(changes, "This is the copy. Date, times, client and ticks are left out.")
}

// copied reports whether a change belongs to the design.
func copied(c job.Change) bool {
	if job.IsProgress(c.Entity) {
		return false
	}
	noun, _, _ := strings.Cut(c.Entity, "/")
	switch noun {
	case "own":
		return false
	case "brief":
		switch c.Field {
		case "title", "date", "in", "doors", "down", "away":
			return false
		}
	case "member":
		return c.Field != "from" && c.Field != "to" && c.Field != "again"
	}
	return true
}
