package view

// Device is how the phone stands: what it holds, what waits, what needs a person. The zero Device is the server's: it
// says nothing.
type Device struct {
	Here      bool // drawn on a phone that holds jobs
	Version   string
	Update    string // a newer version that waits for a tap; empty: none
	Online    bool   // the last exchange reached the server
	Asked     bool   // an exchange was answered, or failed; until then nothing is known of the signal
	Jobs      int    // held here
	Stored    int    // operations held here
	Bytes     int64  // taken on the phone's disk; 0: not known
	Waiting   int    // operations not yet at the server
	Ticks     int    // of these
	Oldest    int64  // Unix ms of the oldest of them; 0: none
	Behind    int    // jobs that are known to stand elsewhere on the server than here
	Shared    int64  // Unix ms of the last complete exchange; 0: never
	Persisted bool   // the browser promised to keep what is stored
	ClockOff  int64  // ms by which the phone's clock is ahead of the server's; 0: not known or right
	Trouble   string // why the last exchange failed, in a person's words; empty: it did not
	Closed    string // "revoked", "ended", or empty
	Lost      bool   // what is on the screen stands there as it was, though somebody has taken it away meanwhile
	Refused   bool   // the page shows a form that was not accepted
	Attention []Attention
	Unkept    bool     // the phone's storage refuses: what was done last is in memory only
	Unposted  int      // forms that neither phone nor server has yet
	Off       []OffJob // that the owner removed from this phone

	Platform  Platform  // what the browser runs on
	Installed bool      // the page is the installed app's own window
	Install   bool      // offer to install the app: nothing waits here, and nobody has put the offer away
	Offline   Readiness // whether it is ready to work without signal

	ServerFull bool // the server's disk takes nothing; also on pages that the server draws
}

// Attention is something that only a person can settle: an operation that the server refused or keeps aside.
type Attention struct {
	ID     string // of the operation
	Job    string
	Title  string // of the job
	Entity string
	What   string // "Tick: Join clusters"
	Why    string
	When   int64 // Unix ms
}
