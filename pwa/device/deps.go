package device

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/calc/measure"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
)

// deps returns pages their dependencies on this phone.
func (c *Core) deps() page.Deps {
	return page.Deps{
		Visitor:      page.Visitor{Role: c.me.Role, Name: c.me.Name, Link: c.me.Link},
		Now:          c.Now(),
		LocalMinutes: c.Zone,
		Zone:         c.Home,
		Jobs:         c.jobRows,
		Job:          c.job,
		Plan:         c.plan,
		Clocks:       &c.clocks,
		Later:        c.later,
		Model:        &c.model,
		Device:       c.status(),
		Leaving:      c.leavingFor,
		Unsent:       c.unsentFile,
		Held:         func(id string) int { return c.heldBack[id] },
		Crowded:      func(id string) bool { return c.crowded[id] },
		Deleted:      func() int { return c.restorable },
		NewID:        c.entityID,
		Units:        measure.ByLanguage(c.Language, measure.Imperial),
		OverHTTP:     c.OverHTTP,
		Scripts:      true,
	}
}

func (c *Core) jobRows() []view.JobRow {
	var rows []view.JobRow
	for _, id := range c.jobIDs() {
		if c.aside[id] {
			rows = append(rows, c.asideRow(id))
			continue
		}
		if j, there := c.job(id); there {
			rows = append(rows, c.row(j))
		} else if c.unread[id] {
			rows = append(rows, c.asideRow(id))
		}
	}
	return rows
}

// row draws up the row of a job.
func (c *Core) row(j job.Job) view.JobRow {
	defer c.working(j.ID)()
	design := plan.DesignFingerprint(j)
	p := c.plans.Plan(j, design)
	row := page.Row(j, p)
	row.Design = design
	c.cover(&row, p)
	row.Waiting = c.phone.Status(j.ID).Changes + c.phone.Status(j.ID+sync.OwnSuffix).Changes
	return row
}

// cover is what the row of a job shows, by its design.
type cover struct {
	design uint64
	look   *look.Look
}

// cover sets the picture of a job's row, or has it computed in the background.
func (c *Core) cover(row *view.JobRow, p plan.Plan) {
	id, design := row.ID, row.Design
	drawn, there := c.covers[id]
	switch {
	case row.Archived:
	case there && drawn.design == design:
		row.Cover = drawn.look
	case len(p.Pieces) > 0:
		row.Later = true
		key := "cover/" + id + "/" + strconv.FormatUint(design, 36)
		c.want(work{key: key, job: id, quiet: true, do: func(pause func()) {
			c.covers[id] = cover{design, view.Cover(&p, pause)}
		}})
	}
}

// status returns the state of this phone.
func (c *Core) status() view.Device {
	d := view.Device{Here: true, Version: c.Build, Online: c.online, Asked: c.answeredOnce,
		Trouble: c.trouble, Persisted: c.browser.kept, Lost: c.lost, Refused: c.messages.form,
		Bytes: c.browser.bytes, Closed: c.me.Closed,
		ServerFull: c.serverFull, Unkept: c.unwritten != nil, Unposted: c.unposted, Jobs: len(c.jobIDs())}
	d.Off = c.offJobs()
	left := 0
	d.Shared, d.Behind = c.shared(), c.behind()
	for _, log := range c.phone.Logs() {
		s := c.phone.Status(log)
		if c.me.Role == "" { // the storage was cleared, and nobody has access yet
			d.Waiting += s.Changes + s.Parked
			continue
		}
		if left += s.Parked; !c.mine(log) {
			left += s.Waiting
			continue
		}
		d.Waiting += s.Changes
		d.Ticks += s.Ticks
		d.Stored += int(s.Seq) + s.Waiting
		if s.OldestWaiting > 0 && (d.Oldest == 0 || s.OldestWaiting < d.Oldest) {
			d.Oldest = s.OldestWaiting
		}
		if s.Shared > 0 {
			d.ClockOff = s.ClockOffMS
		}
		if s.Closed != "" {
			d.Closed = s.Closed
		}
		if s.Reason != "" && d.Trouble == "" {
			d.Trouble = s.Reason
		}
	}
	switch {
	case c.unwritten != nil:
		d.Trouble = "This phone’s storage refuses to keep anything (" + c.refusal +
			"). Stay on this page until all is shared, and make room."
	case c.journalFull:
		d.Trouble = "No room for a backup copy of what waits here. Find signal to share it."
	}
	if left > 0 && d.Trouble == "" {
		d.Trouble = view.Many(left, "change") +
			" made here under another link stay on this phone. Open that link here again to share them."
	}
	c.describeBrowser(&d)
	for _, n := range c.phone.Notes() {
		if !c.mine(n.Log) {
			continue
		}
		d.Attention = append(d.Attention, c.attention(n))
	}
	return d
}

// shared returns when the job on the screen, or every job, was last exchanged, in Unix milliseconds. It is 0 if one of
// the logs was never exchanged.
func (c *Core) shared() int64 {
	current, oldest := c.jobHere(), int64(0)
	for _, log := range c.phone.Logs() {
		s := c.phone.Status(log)
		switch {
		case !c.mine(log) || s.Closed != "" || c.isAside(log):
		case s.Shared == 0:
			return 0
		case current != "" && strings.TrimSuffix(log, sync.OwnSuffix) != current:
		case oldest == 0 || s.Shared < oldest:
			oldest = s.Shared
		}
	}
	return oldest
}

func noteText(n phone.Note) string {
	words := map[phone.NoteKind]string{
		phone.NoteDenied:      "Your link does not allow this.",
		phone.NoteInvalid:     "The server refused this.",
		phone.NoteQuarantined: "The link had ended. The owner decides whether this counts.",
		phone.NoteRefused:     "The server was restored from a backup and did not take this back.",
		phone.NoteMismatch:    "This phone and the server disagree. Nothing is lost; export the job and tell the owner.",
		phone.NoteDamaged:     "Something stored on this phone can’t be read. It was left as it is.",
	}[n.Kind]
	if n.Why != "" {
		words += " (" + n.Why + ")"
	}
	return words
}
