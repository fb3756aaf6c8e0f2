package device

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/sync"
	"garlandry/pwa/view"
)

// words are what is said of an operation, and the title of its job.
type words struct{ what, title string }

// say puts operations of a log into words: by the job and its plan where the phone holds them, else by what they say
// themselves.
func (c *Core) say(log string) (title string, say func(job.Op) string) {
	j, there := c.job(strings.TrimSuffix(log, sync.OwnSuffix))
	if !there {
		return "", view.OpWords(job.Job{State: job.NewState()}, plan.Plan{})
	}
	return j.Brief.Title, view.OpWords(j, c.plan(j))
}

// describe puts into words what an answer of the server refuses, while the job is still here.
func (c *Core) describe(log string, req sync.Request, resp sync.Response) {
	c.words = map[string]words{}
	for _, a := range resp.Acks {
		if a.Result == sync.OK || a.Result == sync.Duplicate {
			continue
		}
		for _, op := range req.Ops {
			if op.ID == a.ID {
				title, say := c.say(log)
				c.words[op.ID] = words{say(op), title}
			}
		}
	}
}

func (c *Core) wordsOf(op job.Op) (what, title string) {
	w := c.words[op.ID]
	return w.what, w.title
}

func (c *Core) attention(n sync.Note) view.Attention {
	a := view.Attention{ID: n.Key, Job: strings.TrimSuffix(n.Log, sync.OwnSuffix), Title: n.Title, What: n.What,
		Why: noteWords(n), When: n.At}
	if n.Op == nil || n.What != "" {
		return a
	}
	title, say := c.say(n.Log)
	a.Entity, a.What, a.Title = n.Op.Entity, say(*n.Op), title
	return a
}
