package view

import (
	"time"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
)

// FieldJob is the id of a job in a form about deleted ones.
const FieldJob = "job"

// DeletedJob is a job that its owner deleted and can restore. Times are in Unix milliseconds.
type DeletedJob struct {
	ID, Title, Date string
	At, Ends        int64
}

// DeleteJob asks for the deletion of a job, and offers its file first. Links is how many open links it closes.
func DeleteJob(f Frame, j job.Job, links int) g.Node {
	title := untitled(j.Brief.Title)
	closes := ""
	if links > 0 {
		closes = " " + Many(links, "link") + " will close."
	}
	return Narrow(
		Heading("", "Delete "+title),
		Panel("", "",
			h.P(g.Text("It leaves all phones."+closes+" You can restore it for 30 days, then it is gone for good.")),
			Soft("This needs signal. Archive keeps a job for good."),
			ButtonRow(
				ButtonLink(f.at(address.Export), Plain, h.Download(""), Icon("share"), g.Text("Save the job file first")))),
		PostForm(ByServer, "delete-job", f.at(address.DeleteJob),
			ButtonRow(Submit(Primary, g.Text("Delete it, with 30 days to restore")))),
		h.P(PlainLink(f.at(address.Job), "back", "Keep the job")))
}

// DeletedJobs lists what can be restored.
func DeletedJobs(f Frame, jobs []DeletedJob) g.Node {
	if len(jobs) == 0 {
		return Narrow(
			Heading("", "Deleted"),
			Empty("Nothing deleted", "A deleted job can be restored here for 30 days.", "",
				ButtonLink(address.Home.Path(), Plain, g.Text("Back to jobs"))))
	}
	return g.Group{
		Heading("", "Deleted"),
		Lead("Gone for good 30 days after it was deleted."),
		ListPanel(h.ID("deleted"), g.Map(jobs, func(d DeletedJob) g.Node {
			return SplitRow(domID("deleted", d.ID), []g.Node{RowTitle(untitled(d.Title)), Small(deletedLine(f, d))},
				PostForm(ByServer, domID("restore", d.ID), address.Deleted.Path(), h.Class("deed"),
					Hidden(FieldJob, d.ID),
					Submit(Plain, g.Text(labelRestore), ForReaders(" "+untitled(d.Title)))))
		})),
		h.P(PlainLink(address.Home.Path(), "back", "Back to jobs")),
	}
}

func deletedLine(f Frame, d DeletedJob) string {
	line := "deleted " + Ago(f.Now, d.At) + ", gone after " + dayWords(time.UnixMilli(d.Ends).UTC())
	if d.Date != "" {
		line = Day(d.Date) + " · " + line
	}
	return line
}

// deletedLink leads from the list of jobs to the deleted ones. It draws nothing if there are none.
func deletedLink(f Frame) g.Node {
	if !f.Owns() || f.Deleted == 0 {
		return nil
	}
	return LinkBelow(address.Deleted.Path(), "undo", number(f.Deleted)+" deleted", g.Attr("data-server"))
}
