package device

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/view"
)

// opLabel describes an operation in words, with the title of its job.
type opLabel struct{ what, title string }

// describer returns the title of a log's job and a function that describes the log's operations. Where the phone does
// not hold the job, operations are described by their own fields alone.
func (c *Core) describer(log string) (title string, say func(job.Op) string) {
	j, there := c.job(strings.TrimSuffix(log, sync.OwnSuffix))
	if !there {
		return "", view.OpWords(job.Job{State: job.NewState()}, plan.Plan{})
	}
	return j.Brief.Title, view.OpWords(j, c.plan(j))
}

// describe keeps labels of the operations that an answer of the server refuses, while the job is still here.
func (c *Core) describe(log string, req sync.Request, resp sync.Response) {
	c.labels = map[string]opLabel{}
	for _, a := range resp.Acks {
		if a.Result == sync.OK || a.Result == sync.Duplicate {
			continue
		}
		for _, op := range req.Ops {
			if op.ID == a.ID {
				title, say := c.describer(log)
				c.labels[op.ID] = opLabel{say(op), title}
			}
		}
	}
}

func (c *Core) labelOf(op job.Op) (what, title string) {
	w := c.labels[op.ID]
	return w.what, w.title
}

func (c *Core) attention(n phone.Note) view.Attention {
	a := view.Attention{ID: n.Key, Job: strings.TrimSuffix(n.Log, sync.OwnSuffix), Title: n.Title, What: n.What,
		Why: noteText(n), When: n.At}
	if n.Op == nil || n.What != "" {
		return a
	}
	title, say := c.describer(n.Log)
	a.Entity, a.What, a.Title = n.Op.Entity, say(*n.Op), title
	return a
}
