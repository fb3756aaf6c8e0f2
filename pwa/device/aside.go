package device

import (
	"encoding/json"
	"errors"
	"strings"

	"garlandry/app/sync"
	"garlandry/pwa/view"
)

// One bad job must not take the others with it. Everything that reads, plans or draws a job says so beforehand, through
// [Core.working]. Then:
//
//   - If the core ends there (the browser's stack is full, memory is out), the worker's JavaScript knows which job it was.
//     The page counts that, by build; after the second time the next core gets the job in [Options.SetAside].
//   - If Go panics there, [Core.survive] sets the job aside at once and the core goes on.
//
// A job set aside is not read, so it is not on this phone's pages: the server answers for it. What waits in it stays in
// the outbox and is handed in ([sync.Phone.HandIn]).

var errAside = errors.New("this job is set aside on this phone, because the app stopped over it")

// jobOf is the job that a log belongs to.
func jobOf(log string) string { return strings.TrimSuffix(log, sync.OwnSuffix) }

func (c *Core) isAside(log string) bool { return c.aside[jobOf(log)] }

// working says which job, by its id or one of its logs, is being worked on until the function it gives is called. A
// panic leaves it said, since the job is then to blame.
func (c *Core) working(log string) (done func()) {
	before := c.at
	c.sayAt(jobOf(log))
	return func() {
		if p := recover(); p != nil {
			panic(p)
		}
		c.sayAt(before)
	}
}

func (c *Core) sayAt(id string) {
	if id == c.at {
		return
	}
	if c.at = id; c.Working != nil {
		c.Working(id)
	}
}

// survive is deferred around every turn of [Core.Run]. It is the one place that recovers, for two reasons. A turn is
// the unit after which the core holds nothing half done but the phone in memory, and that can be thrown away and loaded
// from what is stored, as when the storage refuses. And only here is it known what the page still waits for. Further
// in, a recover would go on with a half-applied state; further out, the core would be gone.
//
// A panic outside the work on a job is nobody's fault that could be set aside: it ends the core, as ever.
func (c *Core) survive() {
	p := recover()
	if p == nil {
		return
	}
	id := c.at
	if id == "" || c.aside[id] {
		panic(p)
	}
	c.sayAt("")
	c.aside[id] = true
	delete(c.readings, id)
	c.forgetWork()
	c.drop()
	if c.Stopped != nil {
		c.Stopped(id, panicText(p))
	}
	c.adrift = c.load() != nil // the next exchange tries again
	c.due = duePage
	if m := c.asked; m != nil {
		c.asked = nil
		c.Page.Draw(Drawing{Type: "unknown", Number: m.Number}) // the server answers
	}
}

// panicText is what a panic said.
func panicText(p any) string {
	switch v := p.(type) {
	case error:
		return v.Error()
	case string:
		return v
	}
	return "a panic that says nothing"
}

// handedIn takes in what became of what waited in a job that is set aside.
func (c *Core) handedIn(t arrived, resp sync.Response, now int64) due {
	err := c.do(func() (sync.Step, []Entry, error) {
		step, err := c.phone.HandedIn(t.log, t.req, resp, now)
		return step, nil, err
	})
	if err != nil {
		c.phone.Failed(t.log, now, "This phone's storage refuses: "+err.Error(), 0)
	}
	return duePage
}

// asideRow is the row of a job that is set aside.
func (c *Core) asideRow(id string) view.JobRow {
	row := view.JobRow{ID: id, Aside: true, Waiting: c.phone.Status(id).Told + c.phone.Status(id+sync.OwnSuffix).Told}
	for _, j := range c.me.Jobs {
		if j.ID == id {
			row.Title = j.Title
		}
	}
	return row
}

// waitingFile gives what waits in a job that is set aside, as a file to keep.
func (c *Core) waitingFile(number int, id string) Drawing {
	waiting := append(c.phone.Unsent(id), c.phone.Unsent(id+sync.OwnSuffix)...)
	text, err := json.MarshalIndent(waiting, "", "  ")
	if err != nil {
		return Drawing{Type: "unknown", Number: number}
	}
	return Drawing{Type: "file", Number: number, Name: "waiting-" + id + ".json", Mime: "application/json",
		Text: string(text)}
}
