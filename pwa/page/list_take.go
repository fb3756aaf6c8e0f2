package page

import (
	"slices"

	"garlandry/app/job"
	"garlandry/pwa/view"
)

// mostOthers is how many other jobs an empty list is offered from.
const mostOthers = 5

// others lists the first other jobs that have something for the list.
func (l *list) others(r *request) []view.Other {
	var others []view.Other
	for _, row := range r.rows() {
		if row.ID == r.job.ID || row.Aside || len(others) == mostOthers {
			continue
		}
		if j, found := r.findJob(row.ID); found && len(l.entries(&j)) > 0 {
			others = append(others, view.Other{ID: j.ID, Title: j.Brief.Title, N: len(l.entries(&j))})
		}
	}
	return others
}

// take copies all entries of the list from another job. What they refer to there but not here is left out.
func (l *list) take(r *request, id string) *Reply {
	from, found := r.findJob(id)
	if l.other == "" || !found || id == r.job.ID || len(l.entries(&r.job)) > 0 {
		return r.trouble(view.LabelNotOffered, "The list has something by now, or the job is gone.", view.LabelLookAgain)
	}
	changes := slices.DeleteFunc(designOf(&from, l.noun), func(c job.Change) bool {
		return c.Field == "driver" && !membersList.has(&r.job, textOf(c))
	})
	return r.save(changes, l.at(r), "Copied from "+(&request{job: from}).title()+".")
}
