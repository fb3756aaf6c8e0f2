package device

import (
	"encoding/json"
	"errors"
	"fmt"
	"garlandry/app/forecast"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/calc/cluster"
	"garlandry/pwa/view"
)

// Core is the app on one phone, in one tab.
type Core struct {
	Options
	phone      *phone.Phone
	me         me
	held       map[string]int     // by job: what waits there for the owner's decision, as the server last said
	crowded    map[string]bool    // jobs in which a link has nearly used up its room
	labels     map[string]opLabel // by operation: what is said of those that are being refused
	posts      map[string]bool    // posts that are on disk
	expired    []string           // keys to delete with the next step
	designs    map[string]uint64  // by job: goes up whenever its design may have changed
	readings   map[string]reading
	plans      plan.Cache
	clocks     forecast.Cache
	model      cluster.Model
	here       string          // the page on the screen, with query; "" until one was asked for
	shown      string          // the page last drawn
	messages   messages        // what is to be read on it
	drawn      int             // the status of what was drawn last
	forms      []view.FormID   // the forms on it that somebody may be typing into
	lost       bool            // it stands as it was, though somebody has taken away what it is about
	opened     int64           // when this core began
	catching   bool            // it began on a page drawn by the server and may know less than that yet
	made       map[string]bool // jobs made by this core
	online     bool
	heard      bool // an exchange was answered, or failed, since this core began
	trouble    string
	full       bool            // the server's disk takes nothing
	news       map[string]bool // logs with news to fetch
	asking     map[string]bool // logs, and "me", with an exchange under way
	differs    map[string]bool // logs that the server said stand elsewhere than here, not exchanged since
	woken      bool            // the page came in sight, or the phone online, and the server has not said since who we are
	hidden     bool            // nobody looks
	outage     bool            // the last exchange came to nothing
	oneByOne   bool            // the server takes one log in a request
	posting    *posting        // the request being put together, nil if none
	posted     int             // requests for logs under way
	arrived    []arrived       // answers for logs, not taken in yet
	tidying    bool            // a job has just left the phone, and others may have to
	received   chan received
	nudges     chan struct{}
	askedMe    int64 // when the server was last asked who we are
	pending    redraw
	wanted     []work // by the page drawn last, still to be done
	task       *task  // that is being done; nil: none
	rests      bool   // nothing of it is done until a pause after a tap is over
	stirred    bool   // somebody tapped again meanwhile
	alarm      int64  // when the next retry rings, 0 if none
	kept       bool   // the browser promised to keep the storage
	bytes      int64
	persists   bool              // the promise was asked for
	mustReload bool              // the phone in memory may differ from the storage: load before sending
	leaving    *leaving          // who leaves this phone, or what; nil: nothing
	left       bool              // signed out: nothing is stored any more
	off        map[string]string // jobs the owner removed from this phone, with their titles
	base       base              // what of the storage the phone in memory stands on

	store       string          // names the storage; another name there means that it was cleared meanwhile
	unwritten   *Batch          // what the storage refused to write; the phone in memory holds it all the same
	ahead       uint64          // the phone's revision once that is written
	refusal     string          // why it was refused
	merges      int             // how often what this core held was brought over to a storage that lacked it
	rescues     bool            // the storage lacks what this core held, which is being brought over
	cleared     bool            // the storage was cleared, and nobody was told yet
	naming      *naming         // names what is made for a post; nil: random ids
	awaiting    map[string]bool // posts in the page's journal whose operations are not shared yet
	looked      uint64          // the phone's revision when they were last looked at
	unposted    int             // forms in the page's journal that neither phone nor server has
	journalFull bool            // the page's journal has no room

	aside      map[string]bool // jobs set aside: over them a core has stopped
	unread     map[string]bool // jobs of which the server's last answer was refused
	workingOn  string          // the job being worked on
	unanswered *Message        // of the page, not answered yet
}

// base is the state of the storage that the phone in memory corresponds to.
type base struct {
	generation string // as it was read, whatever build wrote it
	rev        uint64 // of the phone's row
}

// me is what the server says about this phone's person.
type me struct {
	Role   job.Role `json:"role"`
	Name   string   `json:"name"`
	Link   string   `json:"link"`
	Closed string   `json:"closed"`
	Jobs   []meJob  `json:"jobs"`
	Last   bool     `json:"last"` // no other device of the owner is let in
	Build  string   `json:"build"`
	Full   bool     `json:"full"`

	Handed []sync.HandedLog `json:"handed,omitempty"` // where the link is closed; nil from a server that does not tell
}

type meJob struct {
	ID    string `json:"id"`
	Title string `json:"title,omitempty"`
	Held  int    `json:"held,omitempty"` // waits for the owner's decision

	Crowded bool `json:"crowded,omitempty"` // a link has nearly used up its room

	// How far the logs go. A server of an earlier build leaves the hashes out.
	Epoch    string `json:"e,omitempty"`
	Seq      uint64 `json:"s,omitempty"`
	Hash     string `json:"h,omitempty"`
	OwnEpoch string `json:"oe,omitempty"`
	OwnSeq   uint64 `json:"os,omitempty"`
	OwnHash  string `json:"oh,omitempty"`
}

// Keys of the phone's storage that are the device's own; the others belong to [sync.Phone].
const (
	keyMe     = "me"
	keyPosts  = "post/"
	keyStore  = "store"
	postsKept = 7 * 24 * 60 * 60 * 1000 // ms that a post's id is remembered
)

// Open opens what the phone has stored. An error means that the storage cannot be used: the pages must then do without
// a core.
func Open(o Options) (*Core, error) {
	c := &Core{Options: o, opened: o.Now(), catching: o.Role != "", made: map[string]bool{},
		designs: map[string]uint64{}, readings: map[string]reading{}, asking: map[string]bool{},
		differs: map[string]bool{}, news: map[string]bool{}, awaiting: map[string]bool{},
		received: make(chan received, 16), nudges: make(chan struct{}, 1)}
	c.aside, c.unread = map[string]bool{}, map[string]bool{}
	for _, id := range o.SetAside {
		c.aside[id] = true
	}
	c.clocks.Later = c.later
	if err := c.load(); err != nil {
		return c, err
	}
	return c, c.checkPerson()
}

// checkPerson forgets who the person is if the server drew the page for somebody else. A borrowed phone must not show
// the owner's jobs to a helper.
func (c *Core) checkPerson() error {
	if c.Role == "" || c.me.Role == "" || job.Role(c.Role) == c.me.Role {
		return nil
	}
	err := c.do(func() (phone.Step, []Entry, error) {
		step, err := c.phone.SetAuthor(job.Author{})
		return step, []Entry{{keyMe, "{}"}}, err
	})
	c.me = me{}
	return err
}

// load reads everything but the logs; these are read when they are needed.
func (c *Core) load() error {
	c.mustReload = c.unwritten == nil
	naming := c.naming
	c.naming = nil // a device that has to be made now is no part of a post
	defer func() { c.naming = naming }()
	for range attempts {
		err := c.loadAll()
		if errors.Is(err, errStale) { // the other tab opened a new phone in the same moment
			continue
		}
		c.mustReload = c.mustReload && err != nil
		if err == nil && c.cleared {
			c.tellCleared()
		}
		return err
	}
	return errStale
}

// loadAll reads all rows in one transaction, so that no commit of another tab falls in between.
func (c *Core) loadAll() error {
	spans := []Span{{keyMe, keyMe + "\x00"}, {keyPosts, keyPosts + "\x7f"}, {keyStore, keyStore + "\x00"},
		{keyOff, keyOff + "\x7f"}}
	for _, r := range phone.OpenRanges() {
		spans = append(spans, Span{r.From, r.To})
	}
	found, err := c.Disk.Read(spans...)
	if err != nil {
		return err
	}
	var rows []phone.Row
	var own []Entry
	at := base{generation: found.Generation}
	o := opening{before: c.phone, was: c.me, posts: c.posts, off: c.off, fresh: true}
	for _, e := range found.Entries {
		switch {
		case e.Key == keyMe || strings.HasPrefix(e.Key, keyPosts) || strings.HasPrefix(e.Key, keyOff):
			own = append(own, e)
			continue
		case e.Key == keyStore:
			o.store = e.Text
			continue
		case e.Key == phone.RowPhone:
			o.fresh = false
			at.rev = phone.Revision([]byte(e.Text))
		}
		rows = append(rows, phone.Row{Key: e.Key, Value: []byte(e.Text)})
	}
	phone, step, err := phone.Open(
		rows,
		phone.Options{Now: c.Now, NewID: c.newID, Jitter: c.Jitter, App: c.Build, Words: c.labelOf,
			Seen: func() bool { return !c.hidden }},
	)
	if err != nil {
		return fmt.Errorf("open this phone's storage: %w", err)
	}
	if c.phone != nil {
		phone.Resume(c.phone)
	}
	c.phone, c.base = phone, at
	for _, id := range c.jobIDs() { // another tab may have changed any of them
		c.designs[id]++
	}
	c.openOwn(own)
	o.step = step
	return c.settle(o)
}

// openOwn reads the entries that are the device's own.
func (c *Core) openOwn(entries []Entry) {
	c.me, c.posts, c.off, c.expired = me{}, map[string]bool{}, map[string]string{}, nil
	for _, e := range entries {
		if e.Key == keyMe {
			_ = json.Unmarshal([]byte(e.Text), &c.me) // unreadable: the server tells again
			continue
		}
		if id, off := strings.CutPrefix(e.Key, keyOff); off {
			c.off[id] = e.Text
			continue
		}
		at, err := strconv.ParseInt(e.Text, 10, 64)
		if err == nil && c.Now()-at < postsKept {
			c.posts[e.Key[len(keyPosts):]] = true
		} else {
			c.expired = append(c.expired, e.Key)
		}
	}
}

// errStale says that another tab has written since this one read.
var errStale = errors.New("another tab was faster")
