package page

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// home draws the list of jobs; somebody with one job only is led to it.
func home(a *ask) *Reply {
	var current []view.JobRow
	away := 0
	for _, row := range a.rows() {
		if row.Away {
			away++
		} else {
			current = append(current, row)
		}
	}
	if a.Visitor.Role == job.Owner {
		return a.draw("Jobs", view.Jobs(a.frame, current, away))
	}
	if len(current) == 1 && !current[0].Aside {
		to := address.Job
		if a.Visitor.Role == job.Helper {
			to = address.Next
		}
		return a.goes(to.Path(current[0].ID), "")
	}
	return a.draw("Jobs", view.Jobs(a.frame, current, 0))
}

// awayJobs draws the jobs that were put away.
func awayJobs(a *ask) *Reply {
	var away []view.JobRow
	for _, row := range a.rows() {
		if row.Away {
			away = append(away, row)
		}
	}
	return a.draw("Put away", view.Away(a.frame, away))
}

func putAway(a *ask) *Reply {
	reply := a.wrote([]job.Change{job.Put("brief", "away", true)}, address.Home.Path(), a.title()+" is put away.")
	return reply
}

func takeOut(a *ask) *Reply {
	return a.wrote([]job.Change{job.Put("brief", "away", false)}, a.at(address.Job), a.title()+" is back.")
}

func (a *ask) title() string {
	if a.job.Brief.Title == "" {
		return "The job"
	}
	return a.job.Brief.Title
}
