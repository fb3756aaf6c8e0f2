package page

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// home draws the list of jobs. It redirects somebody with only one job to it.
func home(r *request) *Reply {
	r.find("")
	var current []view.JobRow
	away := 0
	for _, row := range r.rows() {
		if row.Archived {
			away++
		} else {
			current = append(current, row)
		}
	}
	if r.Visitor.Role == job.Owner {
		if r.Deps.Deleted != nil {
			r.frame.Deleted = r.Deps.Deleted()
		}
		return r.draw("Jobs", view.Jobs(r.frame, current, away))
	}
	if len(current) == 1 && !current[0].Aside {
		to := address.Job
		if r.Visitor.Role == job.Helper {
			to = address.Next
		}
		return r.redirect(to.Path(current[0].ID), "")
	}
	return r.draw("Jobs", view.Jobs(r.frame, current, 0))
}

// archivedJobs draws the archived jobs.
func archivedJobs(r *request) *Reply {
	r.find("")
	var away []view.JobRow
	for _, row := range r.rows() {
		if row.Archived {
			away = append(away, row)
		}
	}
	return r.draw("Archive", view.Archive(r.frame, away))
}

// clientLook draws what the client sees.
func clientLook(r *request) *Reply {
	return r.draw(view.LabelClientView, view.OwnClientSheet(r.frame, r.job, r.plan()))
}

func archiveJob(r *request) *Reply {
	return r.save([]job.Change{job.Put("brief", "away", true)}, address.Home.Path(), "Archived "+r.title()+".")
}

func unarchiveJob(r *request) *Reply {
	return r.save([]job.Change{job.Put("brief", "away", false)}, r.at(address.Job), "Restored "+r.title()+".")
}

func (r *request) title() string {
	if r.job.Brief.Title == "" {
		return "the job"
	}
	return r.job.Brief.Title
}
