package simulation

// Sabotage switches off one of the rules, to show that the run would notice.
type Sabotage string

// The rules that can be switched off.
const (
	Nothing             Sabotage = ""
	NoParents           Sabotage = "no causal parents"                              // operations lose what their author had seen on the way
	NoReupload          Sabotage = "no re-upload"                                   // what a restored server has lost is not sent back
	NoDedup             Sabotage = "operations get a new id"                        // a repeated delivery counts again
	EarlyAck            Sabotage = "the outbox is cleared early"                    // rows leave when sent, not when acknowledged
	SharedToken         Sabotage = "another tab's generation taken for mine"        // a commit's token is a counter
	JournalDropsEarly   Sabotage = "journal dropped before the answer"              // an entry leaves when it is sent, not when it is answered
	LoadReplaces        Sabotage = "load replaces unsent work after eviction"       // a tab throws away what its storage has lost
	QuarantineForgotten Sabotage = "quarantine forgotten by restore"                // a restore takes back what was handed in after the backup
	NoDepth             Sabotage = "no depth check"                                 // a deeply nested value gets into the log
	NamesAnew           Sabotage = "a form that comes again is taken for a new one" // operations are not named after their form
	ReopensLinks        Sabotage = "a restore opens again what was closed after it" // closings are in the backup only
	NoThirtyDays        Sabotage = "an archived job stays open to its helpers"      // the thirty-day rule is gone
	TokenReadLast       Sabotage = "a tab reads its token after the rows"           // a torn load is believed
)

// Options are what a run may be told. Zero fields take the usual.
type Options struct {
	Steps    int                                               // of bad luck before the end; 0: 250
	Server   func(jobID string, created int64) (Server, error) // nil: in memory
	Sabotage Sabotage

	// Pending names rules that this server does not keep yet. The run then leaves out what would only show that.
	Pending []Rule
}

func (o Options) pending(r Rule) bool {
	for _, p := range o.Pending {
		if p == r {
			return true
		}
	}
	return false
}
