package device

import (
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/pwa/address"
)

// listsJobs reports whether the page at a path lists jobs.
func listsJobs(path string) bool {
	at, _ := address.Parse(path)
	return at.Page == address.Home || at.Page == address.Archive || at.Page == address.New
}

// caughtUp reports whether this phone knows at least as much about a page as the server did when it drew the first
// page. For that, everything on the page was exchanged since. It is true if the server drew nothing.
func (c *Core) caughtUp(path string) bool {
	if !c.catchingUp {
		return true
	}
	all := c.online && c.exchanged("")
	c.catchingUp = !all
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
		if id != "" && id != of || !c.mine(log) || c.created[of] || c.aside[of] || c.unread[of] {
			continue
		}
		if s := c.phone.Status(log); s.Closed == "" && (s.Shared < c.opened || s.Seq < s.Head && !s.Recovering) {
			return false
		}
	}
	return c.me.Role != job.Owner || id == "" || slices.Contains(c.phone.Logs(), id+sync.OwnSuffix)
}
