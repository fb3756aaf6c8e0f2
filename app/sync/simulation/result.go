package simulation

import (
	"fmt"
	"strings"
)

// Count is one kind of thing that a run counts.
type Count int

// What a run counts.
const (
	Ops         Count = iota // operations stored
	Restores                 // of a backup, announced
	Silent                   // of a backup by hand, unannounced
	Clones                   // phones copied
	Revoked                  // links taken back
	Devices                  // owner devices ended
	Ended                    // answers that a link has run out
	Archived                 // the owner put the job away, or took it out again
	Late                     // answers that a link has ended with its archived job
	Lost                     // messages
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
	Harmless                 // of an insider's operations those that were refused
	Apart                    // operations that arrived before what was seen, from a phone whose storage was emptied
	Destroyed                // operations whose every copy was destroyed
	Stranded                 // operations that only phones hold that are never let in again
	counts
)

var countNames = [counts]string{"ops", "restores", "silent", "clones", "revoked", "devices", "ended", "archived",
	"late", "lost", "kills", "conflicts", "again", "torn", "evicted", "closed", "full", "refused", "straight", "journals",
	"replayed", "wroteback", "forks", "quarantined", "hostile", "harmless", "apart", "destroyed", "stranded"}

// Result is what happened in a run, to see that the bad luck was there.
type Result [counts]int

// Add sums up results.
func (r *Result) Add(o Result) {
	for i, n := range o {
		r[i] += n
	}
}

// Missing names the kinds of bad luck that were not there. What only bad rules lead to is left out.
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
