package gallery

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// leavings draws signing out and removing a job, in each of their states.
func leavings() []Page {
	lost := []view.Loss{{Title: "Reading room reopening", Changes: 3, Ticks: 3},
		{Title: "Summer reading prize", Changes: 1}, {Changes: 2, Other: true}, {Heals: true}}
	owner := frame(job.Owner, "Dora", address.SignOut.Path(), "Sign out")
	helper := frame(job.Helper, "Ines", address.SignOut.Path(), "Sign out")
	plain := owner
	plain.Device = view.Device{}
	inJob := frame(job.Owner, "Dora", address.RemoveJob.Path("sample"), "Remove from this phone")
	inJob.JobID, inJob.JobTitle = "sample", "Reading room reopening"
	fromServer := inJob
	fromServer.Device = view.Device{}
	off := frame(job.Owner, "Dora", address.Phone.Path(), "This phone")
	off.Device.Off = []view.OffJob{{ID: "third", Title: "Harbour <night>"}, {ID: "fourth"}}
	jobs := off
	jobs.Path, jobs.Title = address.Home.Path(), "Jobs"
	rows := []view.JobRow{{ID: "sample", Title: "Reading room reopening"}}
	stuck := view.Leaving{Stuck: "No answer from the server.", Lost: lost, Refused: 1}
	out := func(later bool) Page {
		f := frame("", "", address.Out.Path(), "Signed out")
		f.Device = view.Device{}
		return Page{Frame: f, Body: view.Out(later)}
	}
	named := func(name string, p Page) Page {
		p.Name = name
		return p
	}
	return []Page{
		{"sign-out", owner, view.SignOut(owner, view.Leaving{Lost: lost, Refused: 2})},
		{"sign-out-last", owner, view.SignOut(owner, view.Leaving{Last: true})},
		{"sign-out-helper", helper, view.SignOut(helper, view.Leaving{Refused: 1})},
		{"sign-out-server", plain, view.SignOut(plain, view.Leaving{})},
		{"sign-out-handing", owner, view.SignOut(owner, view.Leaving{Handing: true, Lost: lost})},
		{"sign-out-stuck", owner, view.SignOut(owner, stuck)},
		{"sign-out-unheard", helper, view.SignOut(helper, view.Leaving{Stuck: "The server is busy."})},
		{"remove", inJob, view.RemoveJob(inJob, view.Leaving{Lost: lost[:1]})},
		{"remove-stuck", inJob, view.RemoveJob(inJob, stuck)},
		{"remove-handing", inJob, view.RemoveJob(inJob, view.Leaving{Handing: true, Lost: lost[:1]})},
		{"remove-server", fromServer, view.RemoveJob(fromServer, view.Leaving{})},
		{"phone-off", off, view.Phone(off, rows)},
		{"jobs-off", jobs, view.Jobs(jobs, rows, 0)},
		named("signed-out", out(false)),
		named("signed-out-later", out(true)),
	}
}
