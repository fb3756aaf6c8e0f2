package device

import (
	"encoding/json"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
)

// postIDs derives the ids of everything made for one post from its id, see [job.Post].
type postIDs struct {
	post     job.Post
	private  bool
	ops      [2]int
	entities int
}

// newID returns the id of an operation or device: derived from the post being written, else random.
func (c *Core) newID() string {
	n := c.postIDs
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

// entityID returns the id of a new entity.
func (c *Core) entityID() string {
	n := c.postIDs
	if n == nil {
		return c.NewID()
	}
	n.entities++
	return n.post.EntityID(n.entities - 1)
}

// withPostIDs runs work with ids derived from a post.
func (c *Core) withPostIDs(id string, work func() error) error {
	if post := job.Post(id); post.Valid() {
		c.postIDs = &postIDs{post: post}
	}
	defer func() { c.postIDs = nil }()
	return work()
}

// journalCopy is what the page's journal keeps of a post that this phone has stored.
type journalCopy struct {
	By   job.Author          `json:"by"`
	Logs map[string][]job.Op `json:"logs"`
}

// copyFor returns the operations of a post that the server has not acknowledged, as JSON for the page's journal. It is
// "" if there are none.
func (c *Core) copyFor(id string) string {
	post := job.Post(id)
	if !post.Valid() {
		return ""
	}
	kept := journalCopy{By: c.phone.Author(), Logs: map[string][]job.Op{}}
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
	c.unshared[id] = true
	return string(text)
}

// adopt restores a post from the page's journal, unless this phone still has it. The server recognizes operations that
// it already has by their ids.
func (c *Core) adopt(m Message) {
	var kept journalCopy
	const around = 6 // nesting of a copy around a value
	if !job.Post(m.ID).Valid() || job.ScanJSON([]byte(m.Text), job.MaxDepth+around) != nil ||
		json.Unmarshal([]byte(m.Text), &kept) != nil {
		return
	}
	c.unshared[m.ID], c.sharedRev = true, 0
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
			for _, act := range []func() (phone.Step, error){
				func() (phone.Step, error) { return c.phone.Track(log) },
				func() (phone.Step, error) { return c.phone.Adopt(log, kept.By, kept.Logs[log]...) },
			} {
				step, err := act()
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
		delete(c.unshared, m.ID) // the journal keeps it for the next start
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
	if len(c.unshared) == 0 || c.sharedRev == c.phone.Revision() {
		return
	}
	c.sharedRev = c.phone.Revision()
	unsent := c.phone.UnsentMarks()
	var shared []string
	for id := range c.unshared {
		if !unsent[job.Post(id).Mark()] {
			shared = append(shared, id)
			delete(c.unshared, id)
		}
	}
	if len(shared) == 0 {
		return
	}
	slices.Sort(shared)
	c.Page.Draw(Drawing{Type: "shared", Text: strings.Join(shared, " ")})
}

// onlyAdopted reports whether a log holds only operations from the journal: it was never pulled, nor made here.
func (c *Core) onlyAdopted(id string, shared *job.State) bool {
	s := c.phone.Status(id)
	return s.Seq == 0 && s.Shared == 0 && !c.created[id] && shared.Registers["brief"] == nil
}
