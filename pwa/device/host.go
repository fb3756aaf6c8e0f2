package device

import "time"

// Entry is one stored text under its key.
type Entry struct{ Key, Text string }

// Span is the keys from First up to, but without, Last.
type Span struct{ First, Last string }

// Snapshot is what the storage held at one moment.
type Snapshot struct {
	Generation string  // that the last commit left; "" before the first
	Entries    []Entry // of the spans asked for, span by span, each in the order of its keys
}

// Batch is what one transaction writes: the spans are emptied first, then the keys deleted, then the entries put.
type Batch struct {
	Token          string // names this commit and no other, so that a second try of it is known by it
	Expected, Next string // generation before and after; two tabs may come to the same next one
	Empty          []Span
	Delete         []string
	Put            []Entry
}

// Disk is the phone's storage: texts by key. Several tabs share it.
type Disk interface {
	// Read gives what is stored in the spans. No commit of another tab falls in between.
	Read(...Span) (Snapshot, error)
	// Commit writes everything in one durable transaction. It reports false and writes nothing if the stored generation
	// is not the expected one: another tab has written meanwhile. It reports true and writes nothing if the last commit
	// has its token: it had gone through, though the storage lost its answer.
	Commit(Batch) (bool, error)
	// Alone runs work while no other tab does the same, so that each tab gets its turn. Where the browser cannot see to
	// that it runs work all the same: Commit alone decides what is written.
	Alone(work func() error) error
}

// Answer is what came back from the server. Status 0 means that nothing came back in time.
type Answer struct {
	Status     int
	Text       string
	RetryAfter string // seconds, as the server wrote it
}

// Wire is the network. Fetch makes one exchange; it returns after the limit whatever happens.
type Wire interface {
	Fetch(method, path, body string, limit time.Duration) Answer
}

// Page is the page on the screen, and the other tabs.
type Page interface {
	Draw(Drawing)
	TellOthers()
	// Persist asks the browser to keep what is stored and says how many bytes that is; 0 if it does not tell.
	Persist() (kept bool, bytes int64)
}

// Message is what the page says: a question (get, post, offline) with its number, or that something happened: wake (in
// sight or online again), tick (some seconds have passed), hide, news (of a job), others (another tab wrote), adopt (a
// post that the journal holds is to be here), journal (how the journal stands).
type Message struct {
	Type   string
	Number int
	Path   string // with query
	Form   [][2]string
	ID     string // of a post: makes repeats harmless
	Job    string // that there is news of
	Text   string // of adopt: what the journal kept of the post
	Count  int    // of journal: forms that wait in it for the server
	Full   bool   // of journal: it has no room
}

// Drawing answers a question, or with Number 0 tells what has changed since.
type Drawing struct {
	// Type is drawn, unknown or file; gone: what is on the screen is not on this phone any more; unsaved: a post is for
	// the server; shared: the server has these posts; leave: this phone signs out now; removed: the job Name went from
	// this phone.
	Type    string
	Number  int
	Path    string            // where the answer belongs
	Title   string            // of the page
	Parts   map[string]string // HTML by the id of the region it goes into
	Stored  bool              // what was posted is on disk, now or before
	Copy    string            // of what was posted, for the journal, until it is shared; "" where nothing waits
	Refused bool              // what was posted is refused: nothing was written, and the drawing shows it again
	Waiting int               // operations not yet at the server
	Name    string            // of a file
	Mime    string
	Text    string
}

// Options are what the device is given. All are needed.
type Options struct {
	Build string
	Role  string // of the visitor, as the server drew the page that this core starts on; "" if it did not
	Disk  Disk
	Wire  Wire
	Page  Page
	Now   func() int64 // Unix milliseconds
	// Zone gives the minutes east of UTC in a zone at a time, "" for this phone's own zone; false if unknown.
	Zone   func(zone string, ms int64) (int, bool)
	Home   string                      // this phone's time zone, such as "Europe/Lisbon"; "" if unknown
	NewID  func() string               // 128 random bits as letters and digits
	Jitter func() float64              // from 0 to below 1
	Later  func(ms int64, ring func()) // rings once after a while, from any goroutine
	Go     func(work func())           // runs work beside the rest
	Pause  func()                      // lets in whatever came from outside meanwhile

	SetAside []string              // jobs over which a core has stopped before: they are not opened here
	Working  func(job string)      // hears which job is being worked on, "" for none, before the work; nil: nobody asks
	Stopped  func(job, why string) // hears that a job is set aside from now on, with what the panic said; nil: nobody asks
}
