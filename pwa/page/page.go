package page

import (
	"garlandry/app/forecast"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// Visitor is who asks. A role left empty is a stranger, who may see nothing here.
type Visitor struct {
	Role job.Role
	Name string
	Link string
}

// Deps is everything that a page may need. The server and the phone each fill it. A nil function counts as one that has
// nothing.
type Deps struct {
	Visitor Visitor
	Now     int64 // Unix milliseconds
	// LocalMinutes gives the minutes east of UTC in a time zone at a Unix time in milliseconds; false if it is not known.
	LocalMinutes func(zone string, at int64) (int, bool)
	Jobs         func() []view.JobRow            // jobs this visitor may see, archived ones included
	Job          func(id string) (job.Job, bool) // one of them; without the private log for helpers
	Plan         func(j job.Job) plan.Plan       // kept by the caller; nil: computed
	Clocks       *forecast.Cache                 // kept by the caller; nil: worked out quickly each time
	Model        *cluster.Model                  // relaxes recipes that no table holds; nil: they are estimated
	// Later takes work that the page need not wait for, by a key that differs when the work does, as [forecast.Cache]
	// has it. Nil: there is no later.
	Later  func(key string, work func(pause func()))
	Device view.Device          // state of the phone; zero on the server
	Zone   string               // time zone that a new job begins with, such as "Europe/Lisbon"; "": that of the last job
	Held   func(job string) int // how many operations are held back for the owner to decide
	// Crowded reports whether a link has nearly used up its room in the job.
	Crowded func(job string) bool
	NewID   func() string // 128 random bits as letters and digits
	Assets  view.Assets
	Units   measure.System // of the visitor outside a job
	Theme   string
	// Leaving says how far this device is with signing out, or with removing the job; nil: nothing is known.
	Leaving func(job string) view.Leaving
	// Unsent gives what this phone has not handed in as a file, of one job or of all for ""; nil: it holds nothing.
	Unsent  func(job string) []byte
	Scripts bool         // drawn by the phone's own core
	Flash   string       // what the last post said, see [Reply]
	Undo    *view.Action // how to take that back
}

// Reply is the answer to a visit.
type Reply struct {
	Status    int    // as in HTTP
	Title     string // of the page
	Frame     view.Frame
	Body      g.Node        // of the page; nil with Redirect or File
	Forms     []view.FormID // of the page that somebody may be typing into
	Redirect  string        // a path on this site, with its query
	Flash     string        // what has been done, for the page that follows
	Undo      *view.Action
	Writes    []Write
	File      *File
	BringBack string // id of a job that comes back onto this phone
	Dismissed string // id of an operation that the visitor has looked at and put aside, see [view.Attention]
}

// Write is what to write into one job. Changes of entities for which [job.Private] holds go into its private log.
type Write struct {
	Job     string
	Changes []job.Change
	Create  bool // the job does not exist yet
}

// File is a download.
type File struct {
	Name, Mime string
	Data       []byte
}

// Get returns the page at an address. The path is decoded, without its query. It changes nothing.
func Get(w Deps, path string, query form.Values) Reply { return *w.answer(false, path, query) }

// Post returns what a form posted to an address means: what to write, then where to go, or the same form again with its
// errors and everything that was typed, with a status of 4xx and nothing to write.
func Post(w Deps, path string, typed form.Values) Reply { return *w.answer(true, path, typed) }

// ServerOnly reports whether only the server answers the address: joining, making and ending links, the gallery.
func ServerOnly(path string) bool {
	r, _ := find(path)
	return r != nil && r.server
}

// Known reports whether the address leads anywhere, for GET or for POST.
func Known(post bool, path string) bool {
	r, _ := find(path)
	return r != nil && (r.server || r.answers(post) != nil)
}
