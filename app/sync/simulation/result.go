package simulation

import (
	"fmt"
	"strings"
)

// Count is a kind of event that a run counts.
type Count int

// The kinds of events.
const (
	Ops         Count = iota // operations stored
	Restores                 // of a backup, announced
	Silent                   // of a backup by hand, unannounced
	Clones                   // phones copied
	Revoked                  // links revoked
	Devices                  // owner devices signed out
	Ended                    // answers that a link has expired
	Archived                 // the owner archived or restored the job
	Late                     // answers that a link has ended with its archived job
	Lost                     // messages lost
	Kills                    // tabs killed
	Conflicts                // commits beaten by another tab
	Again                    // commits whose answer was lost
	Torn                     // loads during which another tab wrote
	Evicted                  // storages emptied under a running tab
	Closed                   // storages emptied while no tab ran
	Full                     // storages that refused for a while
	Refused                  // commits refused
	Straight                 // operations sent to the server at once because storage refused
	Journals                 // journals lost
	Replayed                 // journal entries that brought something back
	WroteBack                // operations a tab wrote back into an emptied storage
	Forks                    // answers that a device id is used twice
	Quarantined              // answers that an operation waits for the owner
	Hostile                  // requests of an insider
	Harmless                 // operations of an insider that were refused
	Apart                    // operations that arrived before one their author had seen; see the package comment
	Destroyed                // operations whose every copy was destroyed
	Stranded                 // operations that are only on phones without access
	counts
)

var countNames = [counts]string{"ops", "restores", "silent", "clones", "revoked", "devices", "ended", "archived",
	"late", "lost", "kills", "conflicts", "again", "torn", "evicted", "closed", "full", "refused", "straight", "journals",
	"replayed", "wroteback", "forks", "quarantined", "hostile", "harmless", "apart", "destroyed", "stranded"}

// Result counts the events of a run, to prove that every kind of fault occurred.
type Result [counts]int

// Add sums up results.
func (r *Result) Add(o Result) {
	for i, n := range o {
		r[i] += n
	}
}

// Missing names the kinds of events that did not occur, except Destroyed and Stranded, which are rare.
func (r Result) Missing() []string {
	var names []string
	for c, n := range r {
		if n == 0 && Count(c) != Stranded && Count(c) != Destroyed {
			names = append(names, countNames[c])
		}
	}
	return names
}

func (r Result) String() string {
	parts := make([]string, counts)
	for c, n := range r {
		parts[c] = fmt.Sprintf("%s %d", countNames[c], n)
	}
	return strings.Join(parts, ", ")
}
