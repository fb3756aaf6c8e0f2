package device

import (
	"encoding/json"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
)

// naming names what is made for one post, see [job.Post].
type naming struct {
	post     job.Post
	private  bool
	ops      [2]int
	entities int
}

// newID names operations and devices: of a post while one is being written, else at random.
func (c *Core) newID() string {
	n := c.naming
	if n == nil {
		return c.NewID()
	}
	log := 0
	if n.private {
		log = 1
	}
	n.ops[log]++
	return n.post.OpID(n.private, n.ops[log]-1)
}

// entityID names what a page makes.
func (c *Core) entityID() string {
	n := c.naming
	if n == nil {
		return c.NewID()
	}
	n.entities++
	return n.post.EntityID(n.entities - 1)
}

// named runs work that names everything after a post.
func (c *Core) named(id string, work func() error) error {
	if post := job.Post(id); post.Valid() {
		c.naming = &naming{post: post}
	}
	defer func() { c.naming = nil }()
	return work()
}

// copied is what the page's journal keeps of a post that this phone has: its operations.
type copied struct {
	By   job.Author          `json:"by"`
	Logs map[string][]job.Op `json:"logs"`
}

// copyFor gives the operations of a post that the server has not acknowledged, for the page's journal; "" for none.
func (c *Core) copyFor(id string) string {
	post := job.Post(id)
	if !post.Valid() {
		return ""
	}
	kept := copied{By: c.phone.Author(), Logs: map[string][]job.Op{}}
	for _, log := range c.phone.Logs() {
		for _, op := range c.phone.Unsent(log) {
			if job.PostMark(op.ID) == post.Mark() {
				kept.Logs[log] = append(kept.Logs[log], op)
			}
		}
	}
	if len(kept.Logs) == 0 {
		return ""
	}
	text, err := json.Marshal(kept)
	if err != nil {
		return ""
	}
	c.awaiting[id] = true
	return string(text)
}

// adopt takes back a post out of the page's journal, unless this phone still has it. The server tells by the ids of its
// operations if it had been shared before.
func (c *Core) adopt(m Message) {
	var kept copied
	const around = 6 // of what lies around a value in a copy
	if !job.Post(m.ID).Valid() || job.ScanJSON([]byte(m.Text), job.MaxDepth+around) != nil ||
		json.Unmarshal([]byte(m.Text), &kept) != nil {
		return
	}
	c.awaiting[m.ID], c.looked = true, 0
	if c.posts[m.ID] {
		return
	}
	var logs []string
	for log := range kept.Logs {
		logs = append(logs, log)
	}
	slices.Sort(logs)
	err := c.do(func() (phone.Step, []Entry, error) {
		var steps []phone.Step
		for _, log := range logs {
			for _, take := range []func() (phone.Step, error){
				func() (phone.Step, error) { return c.phone.Track(log) },
				func() (phone.Step, error) { return c.phone.AdoptAs(log, kept.By, kept.Logs[log]...) },
			} {
				step, err := take()
				if err != nil {
					return phone.Step{}, nil, err
				}
				if !step.Empty() {
					steps = append(steps, step)
				}
			}
		}
		return join(steps), []Entry{{keyPosts + m.ID, formatMS(c.Now())}}, nil
	})
	if err != nil {
		delete(c.awaiting, m.ID) // the journal keeps it for the next start
		return
	}
	c.posts[m.ID] = true
	for _, log := range logs {
		c.designChanged(log)
	}
	c.pending = redrawPage
}

// tellShared tells the page which posts of its journal the server has.
func (c *Core) tellShared() {
	if len(c.awaiting) == 0 || c.looked == c.phone.Revision() {
		return
	}
	c.looked = c.phone.Revision()
	unsent := c.phone.UnsentMarks()
	var shared []string
	for id := range c.awaiting {
		if !unsent[job.Post(id).Mark()] {
			shared = append(shared, id)
			delete(c.awaiting, id)
		}
	}
	if len(shared) == 0 {
		return
	}
	slices.Sort(shared)
	c.Page.Draw(Drawing{Type: "shared", Text: strings.Join(shared, " ")})
}

// foreign reports whether a log holds nothing but operations out of the journal: it was never pulled, and not made
// here.
func (c *Core) foreign(id string, shared *job.State) bool {
	s := c.phone.Status(id)
	return s.Seq == 0 && s.Shared == 0 && !c.made[id] && shared.Registers["brief"] == nil
}
