package device

import (
	"encoding/json"
	"errors"
	"strings"

	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/view"
)

// One bad job must not break the others. Everything that reads, plans or draws a job announces it through
// [Core.working]. Then:
//
//   - If the core dies there (stack or memory exhausted), the worker's JavaScript knows which job it was. The page
//     counts such deaths by build. After the second one the next core gets the job in [Options.SetAside].
//   - If Go panics there, [Core.recoverTurn] sets the job aside at once and the core goes on.
//
// A job set aside is not read, so this phone's pages do not show it: the server answers for it. Its waiting operations
// stay in the outbox and are sent ([phone.Phone.RequestUnloaded]).

var errAside = errors.New("this job is set aside on this phone, because the app stopped over it")

// jobOf is the job that a log belongs to.
func jobOf(log string) string { return strings.TrimSuffix(log, sync.OwnSuffix) }

func (c *Core) isAside(log string) bool { return c.aside[jobOf(log)] }

// working announces which job is worked on until done is called, by its id or one of its logs. A panic leaves it
// announced, since that job caused it.
func (c *Core) working(log string) (done func()) {
	before := c.workingOn
	c.setWorkingOn(jobOf(log))
	return func() {
		if p := recover(); p != nil {
			panic(p)
		}
		c.setWorkingOn(before)
	}
}

func (c *Core) setWorkingOn(id string) {
	if id == c.workingOn {
		return
	}
	if c.workingOn = id; c.Working != nil {
		c.Working(id)
	}
}

// recoverTurn is deferred around every turn of [Core.Run]. It is the one place that recovers. Here only the phone in
// memory can be half changed, which can be loaded again. And only here is it known what the page still waits for.
//
// A panic outside the work on a job ends the core, since there is no job to set aside.
func (c *Core) recoverTurn() {
	p := recover()
	if p == nil {
		return
	}
	id := c.workingOn
	if id == "" || c.aside[id] {
		panic(p)
	}
	c.setWorkingOn("")
	c.aside[id] = true
	delete(c.readings, id)
	c.forgetWork()
	c.dropTask()
	if c.Stopped != nil {
		c.Stopped(id, panicText(p))
	}
	c.mustReload = c.load() != nil // the next exchange tries again
	c.pending = redrawPage
	if m := c.unanswered; m != nil {
		c.unanswered = nil
		c.Page.Draw(Drawing{Type: "unknown", Number: m.Number}) // the server answers
	}
}

// panicText returns the text of a panic.
func panicText(p any) string {
	switch v := p.(type) {
	case error:
		return v.Error()
	case string:
		return v
	}
	return "a panic without a text"
}

// receiveAside applies the server's answer to the waiting operations of a job that is set aside.
func (c *Core) receiveAside(t logAnswer, resp sync.Response, now int64) redraw {
	err := c.do(func() (phone.Step, []Entry, error) {
		step, err := c.phone.ReceiveUnloaded(t.log, t.req, resp, now)
		return step, nil, err
	})
	if err != nil {
		c.phone.Failed(t.log, now, view.LabelStorageRefuses+err.Error(), 0)
	}
	return redrawPage
}

// asideRow returns the row of a job that is set aside.
func (c *Core) asideRow(id string) view.JobRow {
	row := view.JobRow{ID: id, Aside: true,
		Waiting: c.phone.Status(id).Changes + c.phone.Status(id+sync.OwnSuffix).Changes}
	for _, j := range c.me.Jobs {
		if j.ID == id {
			row.Title = j.Title
		}
	}
	return row
}

// waitingFile returns the waiting operations of a job that is set aside, as a file.
func (c *Core) waitingFile(number int, id string) Drawing {
	waiting := append(c.phone.Unsent(id), c.phone.Unsent(id+sync.OwnSuffix)...)
	text, err := json.MarshalIndent(waiting, "", "  ")
	if err != nil {
		return Drawing{Type: "unknown", Number: number}
	}
	return Drawing{Type: "file", Number: number, Name: "waiting-" + id + ".json", Mime: "application/json",
		Text: string(text)}
}
