package simulation

import "slices"

// Sabotage switches off one rule, to prove that a run notices.
type Sabotage string

// The rules that can be switched off.
const (
	Nothing Sabotage = ""
	// NoParents drops what the author of an operation had seen.
	NoParents Sabotage = "no causal parents"
	// NoReupload does not send back what a restored server has lost.
	NoReupload Sabotage = "no re-upload"
	// NoDedup counts a repeated delivery again.
	NoDedup Sabotage = "operations get a new id"
	// EarlyAck removes rows from the outbox when they are sent, not when they are acknowledged.
	EarlyAck Sabotage = "the outbox is cleared early"
	// SharedToken makes a commit's token a plain counter.
	SharedToken Sabotage = "two tabs use the same token"
	// JournalDropsEarly removes a journal entry when it is sent, not when it is answered.
	JournalDropsEarly Sabotage = "journal cleared before the answer"
	// LoadReplaces discards what a tab holds and its storage has lost.
	LoadReplaces Sabotage = "load replaces unsent work after eviction"
	// QuarantineForgotten loses the quarantine in a restore.
	QuarantineForgotten Sabotage = "restore loses the quarantine"
	// NoDepth lets deeply nested values into the log.
	NoDepth Sabotage = "no depth check"
	// NamesAnew does not name operations after their form.
	NamesAnew Sabotage = "a repeated form counts as a new one"
	// ReopensLinks records closed links in the backup only.
	ReopensLinks Sabotage = "a restore reopens closed links"
	// NoThirtyDays removes the thirty-day rule.
	NoThirtyDays Sabotage = "an archived job stays open to its helpers"
	// TokenReadLast accepts a torn load.
	TokenReadLast Sabotage = "a tab reads its token after the rows"
)

// Options configure a run. Zero fields take the defaults.
type Options struct {
	Steps    int                                               // random steps before the faults stop; 0: 250
	Server   func(jobID string, created int64) (Server, error) // nil: in memory
	Sabotage Sabotage

	// Pending names rules that this server does not keep yet. The run skips their checks.
	Pending []Rule
}

func (o Options) pending(r Rule) bool {
	return slices.Contains(o.Pending, r)
}
