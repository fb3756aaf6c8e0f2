package view

import (
	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Frame is everything about the looking rather than about what is looked at. Every page is a function of a Frame and
// of domain values.
type Frame struct {
	Title    string             // of the page, for the tab and the heading
	Role     job.Role           // of the visitor; empty counts as a stranger (join page, errors)
	Name     string             // of the visitor
	Path     string             // of the page, without query; forms come back here
	JobID    string             // empty outside a job
	JobTitle string             // empty outside a job
	Nav      []NavItem          // nil: [NavFor] the frame
	Device   Device             // zero on the server
	Flash    string             // what has just happened, one sentence
	Undo     *Action            // takes back what Flash says, if it can be
	Alert    string             // what went wrong with a form, one sentence
	Mistyped Mistyped           // a number that was not taken
	Theme    string             // "", light, dark, sun; empty follows the system
	Assets   Assets             // zero: [DefaultAssets]
	OverHTTP bool               // opened over plain http in a network, where a browser keeps nothing for later
	Scripts  bool               // the page is drawn by the phone's own core: hints for people without scripts are left out
	Now      int64              // Unix milliseconds
	Offset   int                // minutes east of UTC to write times of day in; see Zoned
	Zoned    bool               // Offset is known; otherwise times are written in UTC and say so
	Units    measure.System     // of the job, or of the visitor outside one
	Held     int                // operations of this job that the owner has to decide on, where they are known
	Crowded  bool               // a link of this job has nearly used up its room
	Deleted  int                // deleted jobs that the owner can restore, on the list of jobs
	Finder   Finder             // what the page's list shows of itself
	Cluster  string             // the number of the cluster that the page shows, as typed
	Clock    *forecast.Forecast // of the job, for pages that show cards; nil: none

	// Local gives the minutes east of UTC at each time, across a change of clocks, and false if they are not known; nil:
	// Offset and Zoned hold for all times.
	Local func(ms int64) (int, bool)
}

// Owns reports whether the visitor is the owner: prices, contact and settings are theirs alone.
func (f Frame) Owns() bool { return f.Role == job.Owner }

// Edits reports whether the visitor may change pieces and cards.
func (f Frame) Edits() bool { return f.Role.May(job.Set, "piece/x") }

// InJob returns the frame for a page of a job.
func (f Frame) InJob(j job.Job) Frame {
	f.JobID, f.JobTitle = j.ID, j.Brief.Title
	f.Units = measure.System(j.Brief.Units)
	return f
}

// at returns the address of a page in the frame's job: at(address.Pack) is "/jobs/J/pack".
func (f Frame) at(page address.Page, item ...string) string {
	return page.Path(append([]string{f.JobID}, item...)...)
}

func (f Frame) assets() Assets {
	if f.Assets.CSS == "" {
		return DefaultAssets()
	}
	return f.Assets
}

// Assets are the addresses of what a page loads; with a content hash in them where the server has one.
type Assets struct {
	CSS      string
	Picture  string // the style sheet of pictures
	Narrow   string // a style sheet for phones; empty: the page has none
	Wide     string // one for wide screens
	Print    string // one for paper
	Script   string // a module; empty: the page has none
	Look     string // a plain script that puts the chosen look on before the page is painted; empty: the page has none
	Recall   string // a plain script of the bare page that puts back what was on the screen last; empty: none
	Manifest string
	Icon     string // SVG
	Touch    string // PNG, 180 px
	Build    string // of the program; empty: no on-device core
	Core     string // the on-device core, wasm
	Loader   string // the compiler's loader for it
	Left     bool   // this device has just signed out: the script clears what is stored here
	Shell    bool   // the page is the empty shell that a service worker answers with
}

// DefaultAssets returns the addresses without hashes, as static/ holds the files.
func DefaultAssets() Assets {
	return Assets{CSS: "/static/css/app.css", Picture: "/static/css/picture.css", Narrow: "/static/css/narrow.css",
		Wide: "/static/css/wide.css", Print: "/static/css/print.css",
		Script: "/static/js/main.js", Look: "/static/js/look.js",
		Recall: "/static/js/recall.js", Manifest: "/manifest.webmanifest", Icon: "/static/icons/icon.svg",
		Touch: "/static/icons/touch-180.png"}
}

// NavItem is one entry of the bar at the bottom (or at the side, on a wide screen).
type NavItem struct {
	Href, Label, Icon string
	Current           bool
}

// JobRow is one job in the list of jobs.
type JobRow struct {
	ID, Title, Date, Venue string
	Doors                  job.Moment
	Archived               bool
	Colours                []job.Colour
	Done, Total            int // cards
	Waiting                int // what waits on this phone
	HelperName             string
	Cover                  *look.Look // nil: none, or Later
	Design                 uint64     // changes with the cover
	Later                  bool       // the cover is not drawn yet
	Aside                  bool       // it could not be opened on this phone
}

// Link is one helper link as the owner sees it.
type Link struct {
	ID, Name string
	Role     job.Role
	Made     int64  // Unix ms
	Ends     int64  // Unix ms; 0: no end
	Until    string // the last day on which it works, at the job's place: "2027-05-11"
	As       string // what the helper goes by, where that is another name
	LastSeen int64  // Unix ms; 0: never used
	Revoked  bool
	URL      string // only just after it was made, with the secret; empty ever after
	Held     int    // operations that came in after the end and wait for the owner
	Devices  []LinkDevice
}

// LinkDevice is a device that joined by a helper link.
type LinkDevice struct {
	ID, Label string
	Seen      int64 // Unix ms
}
