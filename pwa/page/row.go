package page

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/view"
)

// Row returns the row of a job in the list of jobs. The caller fills in what waits on a phone.
func Row(j job.Job, p plan.Plan) view.JobRow {
	row := view.JobRow{ID: j.ID, Title: j.Brief.Title, Date: j.Brief.Date, Venue: j.Brief.Venue,
		Doors: j.Brief.Doors, Archived: j.Brief.Archived, Colours: j.Colours}
	for _, c := range p.Cards {
		if c.Gone {
			continue
		}
		row.Total++
		if c.Done {
			row.Done++
		}
	}
	return row
}
