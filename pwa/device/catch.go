package device

import (
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/pwa/address"
)

// listsJobs reports whether the page at a path shows something of every job.
func listsJobs(path string) bool {
	at, _ := address.Parse(path)
	return at.Page == address.Home || at.Page == address.Archive || at.Page == address.New
}

// caughtUp reports whether this phone knows at least as much about a page as the server did when it drew the page that
// this core started on: everything on it was exchanged since. It is true if the server drew nothing.
func (c *Core) caughtUp(path string) bool {
	if !c.catching {
		return true
	}
	all := c.online && c.exchanged("")
	c.catching = !all
	id := address.JobOf(path)
	switch {
	case all:
		return true
	case id != "":
		return c.exchanged(id)
	}
	return !listsJobs(path)
}

// exchanged reports whether the logs of a job, or of all jobs for "", were read to their end since this core started.
func (c *Core) exchanged(id string) bool {
	for _, log := range c.phone.Logs() {
		of := strings.TrimSuffix(log, sync.OwnSuffix)
		if id != "" && id != of || !c.mine(log) || c.made[of] || c.aside[of] || c.unread[of] {
			continue
		}
		if s := c.phone.Status(log); s.Closed == "" && (s.Shared < c.opened || s.Seq < s.Head && !s.Recovering) {
			return false
		}
	}
	return c.me.Role != job.Owner || id == "" || slices.Contains(c.phone.Logs(), id+sync.OwnSuffix)
}
