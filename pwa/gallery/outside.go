package gallery

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/pwa/view"
)

// jobRows are the jobs of the lists.
func jobRows() []view.JobRow {
	return []view.JobRow{
		{ID: "sample", Title: "Reading room reopening", Date: "2027-05-08", Venue: "Town library, east door",
			Doors: "2027-05-08T11:00", Done: 9, Total: 22, Waiting: 3, Cover: sampleCover(),
			Colours: []job.Colour{{Name: "Coral", Value: "#e5604d"}, {Name: "Ink blue", Value: "#24416b"},
				{Name: "Sand", Value: "#dcbd8c", Finish: "mirror"}, {Name: "Blush", Value: "#f2b8a8"}}},
		{ID: "second", Title: "Summer reading prize with a very long name that somebody typed on a phone <&>",
			Date: "2027-06-19", Venue: "School hall", Done: 0, Total: 14},
		{ID: "third", Title: ""},
	}
}

// sampleCover is the cover of the demo job; nil if that cannot be read.
func sampleCover() *look.Look {
	_, p, err := Sample(reading, false)
	if err != nil {
		return nil
	}
	return view.Cover(&p, func() {})
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
		{"scan-wrong", frame("", "", "/j/code", "Join with a code"), func(f view.Frame) g.Node {
			return view.Scan(f, view.JoinForm{AppCode: "K7M 4TX 9CR", AppCodeError: "No such code. Each works once."})
		}},
		{"app-code", frame(job.Helper, "Ines", "/phone/code", "Code for the installed app"),
			func(f view.Frame) g.Node { return view.AppCode(f, "K7M4TX9CR") }},
		{"devices", frame(job.Owner, "Dora", "/phone/devices", "Your devices"),
			func(f view.Frame) g.Node { return view.Devices(f, ownDevices()) }},
		{"devices-helper", frame(job.Helper, "Ines", "/phone/devices", "Your devices"),
			func(f view.Frame) g.Node { return view.Devices(f, ownDevices()[:2]) }},
		{"client-gone", view.Frame{Path: "/look/x", Title: "Link ended"},
			func(view.Frame) g.Node { return standalone(view.ClientGone) }},
		{"not-found", frame(job.Owner, "Dora", "/nowhere", "Nothing here"), view.NotFound},
		{"broken", frame(job.Owner, "Dora", "/broken", "Something went wrong"),
			func(f view.Frame) g.Node { return view.Broken(f, "4711") }},
		{"offline", frame(job.Helper, "Ines", "/elsewhere", "No signal"), view.Offline},
		{"refused", frame(job.Helper, "Ines", "/jobs/x/share", "You don’t have access"),
			func(f view.Frame) g.Node { return view.Refused(f, "The owner makes the links.") }},
		{"said", frame(job.Owner, "Dora", "/", "Jobs"), func(f view.Frame) g.Node { return view.Jobs(f, rows, 0) }},
	}
}

// ownDevices are devices of one person: named, of a browser that says nothing, ended and long unused.
func ownDevices() []view.OwnDevice {
	const day = 24 * 60 * minute
	return []view.OwnDevice{
		{ID: "d1", Name: "Dora", Label: "Android phone, Chrome", Made: Now - 90*day, Seen: Now, This: true},
		{ID: "d2", Name: "Dora", Label: "iPhone, Safari", Made: Now - 20*day, Seen: Now - 3*60*minute, Installed: true},
		{ID: "d3", Made: Now - 40*day, Seen: Now - 9*day},
		{ID: "d4", Name: "Dora <b>", Label: "The van’s <tablet> with a long name", Made: Now - 50*day, Seen: Now - 45*day},
		{ID: "d5", Label: "Mac or iPad, Safari", Made: Now - 50*day, Seen: Now - 6*day, Ended: Now - 5*day},
	}
}
