package gallery

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/pwa/view"
)

// jobRows are the jobs of the lists.
func jobRows() []view.JobRow {
	return []view.JobRow{
		{ID: "sample", Title: "Reading room reopening", Date: "2027-05-08", Venue: "Town library, east door",
			Doors: "2027-05-08T11:00", Done: 9, Total: 22, Waiting: 3,
			Colours: []job.Colour{{Name: "Coral", Value: "#e5604d"}, {Name: "Ink blue", Value: "#24416b"},
				{Name: "Sand", Value: "#dcbd8c", Finish: "mirror"}, {Name: "Blush", Value: "#f2b8a8"}}},
		{ID: "second", Title: "Summer reading prize with a very long name that somebody typed on a phone <&>",
			Date: "2027-06-19", Venue: "School hall", Done: 0, Total: 14},
		{ID: "third", Title: ""},
	}
}

// set puts a frame into the state that the page of that name shows.
func set(name string, f *view.Frame) {
	switch {
	case f.Role == "", name == "phone-server":
		f.Device = view.Device{}
	case name == "phone-trouble":
		d := &f.Device
		d.Attention = []view.Attention{
			{ID: "sample000001", Job: "sample", Title: "Reading room reopening", Entity: "card/make/door",
				What: "Tick: Make clusters", When: Now - 50*minute,
				Why: "Your link had ended when this came in. The owner can accept it."},
		}
		d.Waiting, d.Oldest, d.Online, d.Persisted = 14, Now-190*minute, false, false
		d.ClockOff, d.Update = 95*minute, "build 8"
		d.Trouble = "The server did not answer within ten seconds."
	case name == "said":
		f.JobID = "sample"
		f.Flash = "Ticked: Make clusters"
		f.Alert = "The file could not be read: it is not a job file. Nothing was changed."
		f.Undo = &view.Action{Act: "untick", Entity: "card/make/door"}
	}
}

// outsidePage is a page outside a job, with how to draw it.
type outsidePage struct {
	name string
	f    view.Frame
	body func(view.Frame) g.Node
}

// exceptions are the security log and the pages for when something is not as usual.
func exceptions(rows []view.JobRow) []outsidePage {
	return []outsidePage{
		{"security", frame(job.Owner, "Dora", "/security", "Security log"),
			func(f view.Frame) g.Node { return view.Security(f, securityEvents()) }},
		{"security-none", frame(job.Owner, "Dora", "/security", "Security log"), func(f view.Frame) g.Node {
			return view.Security(f, view.SecurityPage{Show: "limits", Page: 1, Unkept: 3})
		}},
		{"scan", frame("", "", "/scan", "Join with a code"),
			func(f view.Frame) g.Node { return view.Scan(f, view.JoinForm{}) }},
		{"not-found", frame(job.Owner, "Dora", "/nowhere", "Nothing here"), view.NotFound},
		{"broken", frame(job.Owner, "Dora", "/broken", "Something went wrong"),
			func(f view.Frame) g.Node { return view.Broken(f, "4711") }},
		{"offline", frame(job.Helper, "Ines", "/elsewhere", "No signal"), view.Offline},
		{"refused", frame(job.Helper, "Ines", "/jobs/x/share", "You don’t have access"),
			func(f view.Frame) g.Node { return view.Refused(f, "The owner makes the links.") }},
		{"said", frame(job.Owner, "Dora", "/", "Jobs"), func(f view.Frame) g.Node { return view.Jobs(f, rows, 0) }},
	}
}
