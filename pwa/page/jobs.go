package page

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// home draws the list of jobs; somebody with one job only is led to it.
func home(r *request) *Reply {
	var current []view.JobRow
	away := 0
	for _, row := range r.rows() {
		if row.Away {
			away++
		} else {
			current = append(current, row)
		}
	}
	if r.Visitor.Role == job.Owner {
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

// awayJobs draws the jobs that were put away.
func archivedJobs(r *request) *Reply {
	var away []view.JobRow
	for _, row := range r.rows() {
		if row.Away {
			away = append(away, row)
		}
	}
	return r.draw("Put away", view.Away(r.frame, away))
}

func archiveJob(r *request) *Reply {
	reply := r.save([]job.Change{job.Put("brief", "away", true)}, address.Home.Path(), r.title()+" is put away.")
	return reply
}

func unarchiveJob(r *request) *Reply {
	return r.save([]job.Change{job.Put("brief", "away", false)}, r.at(address.Job), r.title()+" is back.")
}

func (r *request) title() string {
	if r.job.Brief.Title == "" {
		return "The job"
	}
	return r.job.Brief.Title
}
