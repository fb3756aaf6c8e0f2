package device

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"garlandry/app/forecast"
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
	phone *phone.Phone
	me    me
	base  base // state of the storage that the phone in memory corresponds to

	// What the server said.
	heldBack     map[string]int  // by job: operations that wait for the owner's decision
	deleted      []meDeleted     // jobs that the owner deleted
	restorable   int             // deleted jobs that the owner can restore
	crowded      map[string]bool // jobs in which a link has nearly used up its room
	online       bool
	outage       bool            // the last request failed
	serverFull   bool            // the server's disk is full
	answeredOnce bool            // a request has succeeded or failed since this core started
	trouble      string          // why sharing fails, for people
	askedMe      int64           // when we last asked who we are; 0: due
	opened       int64           // when this core started
	catchingUp   bool            // it started on a page drawn by the server, and may know less than that page
	created      map[string]bool // jobs made by this core

	// Jobs and plans.
	labels   map[string]opLabel // by operation: descriptions of operations being refused
	posts    map[string]bool    // ids of posts that are on disk
	expired  []string           // keys to delete with the next step
	designs  map[string]uint64  // by job: goes up when its design may have changed, so that it is read again
	readings map[string]reading // by job
	plans    plan.Cache
	clocks   forecast.Cache
	covers   map[string]cover // by job
	model    cluster.Model

	// The page on the screen.
	current  string        // its address with query; "" until a page was asked for
	shown    string        // address of the page drawn last
	messages messages      // shown on it
	drawn    int           // its status
	forms    []view.FormID // forms on it that somebody may be typing into
	lost     bool          // it is left as it is, though its subject was removed elsewhere
	pending  redraw
	hidden   bool // nobody looks

	// Requests.
	news      map[string]bool // logs to pull
	inFlight  map[string]bool // logs, and "me", with a request under way
	overtaken map[string]bool // requests, as in inFlight, from before the last wake: they may fail without a pause
	differs   map[string]bool // logs that end elsewhere on the server, not exchanged since
	justWoken bool            // woken, and not told since who we are
	oneByOne  bool            // the server takes one log in a request
	posting   *posting        // the request being assembled; nil: none
	requests  int             // requests for logs under way
	answers   []logAnswer     // not applied yet
	tidying   bool            // a log was just removed, others may follow
	received  chan received
	alarms    chan struct{}
	alarm     int64 // when the next retry is due; 0: none

	// Background work.
	queued      []work // wanted by the page drawn last
	task        *task  // under way; nil: none
	resting     bool   // no work until the pause after a tap is over
	tappedAgain bool   // during that pause

	// Keeping the storage.
	browser    browser // what the page said about the browser
	noInstall  bool    // the offer to install was put away for good
	mustReload bool    // the phone in memory may differ from the storage: load before sending

	// Leaving.
	leaving *leaving          // the sign-out or removal under way; nil: none
	left    bool              // signed out: nothing is stored any more
	off     map[string]string // titles of the jobs that the owner removed from this phone

	// Storage that refuses or was cleared.
	store     string // name of the storage; another name means that it was cleared
	unwritten *Batch // what the storage refused; the phone in memory holds it
	ahead     uint64 // the phone's revision with that
	refusal   string // why it was refused
	merges    int    // how often this core's data was merged into a storage that lacked it
	rescuing  bool   // such a merge is under way
	cleared   bool   // the storage was cleared, and nobody was told yet

	// The page's journal.
	postIDs     *postIDs        // names what is made for a post; nil: random ids
	unshared    map[string]bool // posts in the journal whose operations are not shared yet
	sharedRev   uint64          // the phone's revision when they were last checked
	unposted    int             // forms in the journal that neither phone nor server has
	journalFull bool

	// Failing jobs.
	aside      map[string]bool // jobs set aside, because a core stopped over them
	unread     map[string]bool // jobs whose last answer from the server was refused
	workingOn  string          // the job being worked on
	unanswered *Message        // the page's message being handled
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
	Last   bool     `json:"last"` // no other device of the owner has access
	Build  string   `json:"build"`
	Full   bool     `json:"full"`

	Deleted []meDeleted      `json:"deleted,omitempty"`
	Handed  []sync.HandedLog `json:"handed,omitempty"` // for a closed link; nil from a server that does not tell
}

// meDeleted is a job that the owner deleted.
type meDeleted struct {
	ID   string `json:"id"`
	Gone bool   `json:"gone,omitempty"` // it cannot be restored
}

type meJob struct {
	ID    string `json:"id"`
	Title string `json:"title,omitempty"`
	Held  int    `json:"held,omitempty"` // operations that wait for the owner's decision

	Crowded bool `json:"crowded,omitempty"` // a link has nearly used up its room

	// Ends of the logs. A server of an earlier build leaves the hashes out.
	Epoch    string `json:"e,omitempty"`
	Seq      uint64 `json:"s,omitempty"`
	Hash     string `json:"h,omitempty"`
	OwnEpoch string `json:"oe,omitempty"`
	OwnSeq   uint64 `json:"os,omitempty"`
	OwnHash  string `json:"oh,omitempty"`
}

// Keys of the phone's storage that are the device's own; the others belong to [sync.Phone].
const (
	keyMe       = "me"
	keyPosts    = "post/"
	keyStore    = "store"
	postsKeptMS = 7 * 24 * 60 * 60 * 1000 // ms that a post's id is remembered
)

// Open opens the phone's storage. On an error the storage cannot be used, and the pages work without a core.
func Open(o Options) (*Core, error) {
	c := &Core{Options: o, opened: o.Now(), catchingUp: o.Role != "", created: map[string]bool{},
		designs: map[string]uint64{}, covers: map[string]cover{}, readings: map[string]reading{}, inFlight: map[string]bool{},
		differs: map[string]bool{}, news: map[string]bool{}, unshared: map[string]bool{},
		received: make(chan received, 16), alarms: make(chan struct{}, 1)}
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

// load reads everything but the logs, which are read when needed.
func (c *Core) load() error {
	c.mustReload = c.unwritten == nil
	naming := c.postIDs
	c.postIDs = nil // a new device id is no part of a post
	defer func() { c.postIDs = naming }()
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
		{keyOff, keyOff + "\x7f"}, {keyNoInstall, keyNoInstall + "\x00"}}
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
		case e.Key == keyMe || e.Key == keyNoInstall || strings.HasPrefix(e.Key, keyPosts) ||
			strings.HasPrefix(e.Key, keyOff):
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
		phone.Options{Now: c.Now, NewID: c.newID, Jitter: c.Jitter, App: c.Build, Describe: c.labelOf,
			Watched: func() bool { return !c.hidden }},
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
		if e.Key == keyNoInstall {
			c.noInstall = true
			continue
		}
		if id, off := strings.CutPrefix(e.Key, keyOff); off {
			c.off[id] = e.Text
			continue
		}
		at, err := strconv.ParseInt(e.Text, 10, 64)
		if err == nil && c.Now()-at < postsKeptMS {
			c.posts[e.Key[len(keyPosts):]] = true
		} else {
			c.expired = append(c.expired, e.Key)
		}
	}
}

// errStale says that another tab has written since this one read.
var errStale = errors.New("another tab was faster")
