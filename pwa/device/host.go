package device

import "time"

// Entry is one stored text under its key.
type Entry struct{ Key, Text string }

// Span is a range of keys: from First up to but not including Last.
type Span struct{ First, Last string }

// Snapshot is what the storage held at one moment.
type Snapshot struct {
	Generation string  // set by the last commit; "" before the first
	Entries    []Entry // of the requested spans, span by span, sorted by key
}

// Batch is what one transaction writes. It empties the spans, then deletes the keys, then puts the entries.
type Batch struct {
	Token          string // unique to this commit, so that a second try is recognized
	Expected, Next string // generation before and after; two tabs may choose the same next one
	Empty          []Span
	Delete         []string
	Put            []Entry
}

// Disk is the phone's storage: texts by key. Several tabs share it.
type Disk interface {
	// Read gives what is stored in the spans. No commit of another tab falls in between.
	Read(...Span) (Snapshot, error)
	// Commit writes everything in one durable transaction. It reports false and writes nothing if the stored generation
	// is not the expected one, since another tab has written. It reports true and writes nothing if the last commit has
	// the same token: that one succeeded, though its answer was lost.
	Commit(Batch) (bool, error)
	// Alone runs work under a lock that all tabs share. In a browser without locks it just runs work: Commit still keeps
	// the data consistent.
	Alone(work func() error) error
}

// Answer is the server's answer. Status 0 means that none came in time.
type Answer struct {
	Status     int
	Text       string
	RetryAfter string // seconds, as the server wrote it
}

// Wire is the network. Fetch makes one request and returns after the limit at the latest.
type Wire interface {
	Fetch(method, path, body string, limit time.Duration) Answer
}

// Page is the page on the screen, and the other tabs.
type Page interface {
	Draw(Drawing)
	TellOthers()
}

// Message is a message from the page. Its Type is a numbered request (get, post, offline) or an event: wake (visible or
// online again), tick (some seconds have passed), hide, news (of a job), others (another tab wrote), adopt (restore a
// post from the journal), journal (the journal's state),
// browser (facts about the browser, as pairs in Form).
type Message struct {
	Type   string
	Number int
	Path   string      // with query
	Form   [][2]string // of a post or a browser
	ID     string      // of a post, so that repeats are recognized
	Job    string      // of news
	Text   string      // of adopt: the journal's copy of the post
	Count  int         // of journal: forms in it that wait for the server
	Full   bool        // of journal: it has no room
}

// Drawing answers a request. With Number 0 it updates the page unasked.
type Drawing struct {
	// Type is one of: drawn; unknown (the server must answer); file; gone (the page on the screen is not on this phone any
	// more); unsaved (the server must take the post); shared (the server has these posts); leave (sign out now); removed
	// (job Name left this phone).
	Type    string
	Number  int
	Path    string            // address of the page
	Title   string            // of the page
	Parts   map[string]string // HTML by region id
	Stored  bool              // the post is on disk
	Copy    string            // of the post, for the journal until it is shared; "" if nothing waits
	Refused bool              // the post was refused and not written; the drawing shows its form again
	Waiting int               // operations that the server does not have yet
	Name    string            // of a file
	Mime    string
	Text    string
}

// Options are the dependencies of a [Core]. All but Working and Stopped are required.
type Options struct {
	Build string
	Role  string // of the visitor of the page drawn by the server that this core starts on; "" if there is none
	Disk  Disk
	Wire  Wire
	Page  Page
	Now   func() int64 // Unix milliseconds
	// Zone gives a time zone's offset from UTC at a time, in minutes east. Zone "" is the phone's own. False: unknown.
	Zone     func(zone string, ms int64) (int, bool)
	OverHTTP bool                        // the page was opened over plain http in a network, see [view.Frame]
	Home     string                      // this phone's time zone, such as "Europe/Lisbon"; "" if unknown
	Language string                      // of the browser, such as "en-GB"; "" if unknown
	NewID    func() string               // 128 random bits as letters and digits
	Jitter   func() float64              // from 0 to below 1
	Later    func(ms int64, ring func()) // calls ring once after ms, from any goroutine
	Go       func(work func())           // runs work in a goroutine
	Pause    func()                      // lets pending browser events in

	SetAside []string              // jobs that stopped an earlier core: they are not opened here
	Working  func(job string)      // called before work on a job, with "" after it; may be nil
	Stopped  func(job, why string) // called when a job is set aside, with the text of the panic; may be nil
}
