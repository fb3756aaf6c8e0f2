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

// Visitor is the person who opens a page. Without a role it is a stranger, who can see nothing here.
type Visitor struct {
	Role job.Role
	Name string
	Link string
}

// Deps holds everything that a page may need. The server and the phone each fill it. A nil function returns nothing.
type Deps struct {
	Visitor Visitor
	Now     int64 // Unix milliseconds
	// LocalMinutes gives the minutes east of UTC in a time zone at a Unix time in milliseconds; false if it is not known.
	LocalMinutes func(zone string, at int64) (int, bool)
	Jobs         func() []view.JobRow            // jobs this visitor may see, archived ones too
	Job          func(id string) (job.Job, bool) // one of them; without the private log for helpers
	Plan         func(j job.Job) plan.Plan       // cached by the caller; nil: computed
	Clocks       *forecast.Cache                 // of the caller; nil: quick forecasts only
	Model        *cluster.Model                  // relaxes recipes that are in no table; nil: they are estimated
	// Later runs work in the background, see [forecast.Cache]. Nil: there is no background work.
	Later  func(key string, work func(pause func()))
	Device view.Device          // state of the phone; zero on the server
	Zone   string               // time zone of a new job, such as "Europe/Lisbon"; "": that of the last job
	Held   func(job string) int // how many operations wait for the owner to decide
	// Crowded reports whether a link has nearly used up its room in the job.
	Crowded func(job string) bool
	Deleted func() int    // deleted jobs that the owner can restore
	NewID   func() string // 128 random bits as letters and digits
	Assets  view.Assets
	Units   measure.System // of the visitor outside a job
	Theme   string
	// Leaving returns how far this device is with signing out or removing the job; nil: unknown.
	Leaving func(job string) view.Leaving
	// Unsent returns a file of what this phone has not sent yet, for one job or "" for all; nil: nothing.
	Unsent   func(job string) []byte
	OverHTTP bool         // see [view.Frame]
	Scripts  bool         // drawn by the phone's own core
	Flash    string       // message of the last post, see [Reply]
	Undo     *view.Action // takes that post back
}

// Reply is the answer to a visit.
type Reply struct {
	Status    int // as in HTTP
	Title     string
	Frame     view.Frame
	Body      g.Node        // nil with Redirect or File
	Forms     []view.FormID // forms that somebody may be typing into
	Redirect  string        // a path on this site, with its query
	Flash     string        // message for the next page
	Undo      *view.Action
	Writes    []Write
	File      *File
	BringBack string // id of a job to bring back to this phone
	NoInstall bool   // the visitor put the offer to install away
	Dismissed string // id of an operation that the visitor dismissed, see [view.Attention]
}

// Write is what to write into one job. Changes to [job.Private] entities go into its private log.
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

// Get returns the page at an address. The path is decoded and without its query.
func Get(w Deps, path string, query form.Values) Reply { return *w.answer(false, path, query) }

// Post returns what a posted form means: what to write and where to go next. If the form has errors, it returns the
// form again with the errors and everything that was typed, a 4xx status and nothing to write.
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
