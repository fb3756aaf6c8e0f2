package simulation

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Sabotage switches off one of the rules, to show that the run would notice.
type Sabotage string

// The rules that can be switched off.
const (
	Nothing    Sabotage = ""
	NoParents  Sabotage = "no causal parents"           // operations lose what their author had seen on the way
	NoReupload Sabotage = "no re-upload"                // what a restored server has lost is not sent back
	NoDedup    Sabotage = "operations get a new id"     // a repeated delivery counts again
	EarlyAck   Sabotage = "the outbox is cleared early" // rows leave when sent, not when acknowledged
)

// Options are what a run may be told. Zero fields take the usual.
type Options struct {
	Steps    int                                               // of bad luck before the end; 0: 250
	Server   func(jobID string, created int64) (Server, error) // nil: in memory
	Sabotage Sabotage
}

// Result is what happened in a run, to see that the bad luck was there.
type Result struct {
	Ops, Restores, Silent, Clones, Revoked, Ended, Lost, Kills, Conflicts, Forks, Quarantined int
}

const (
	jobID  = "job1"
	start  = int64(1_800_000_000_000) // true time at the beginning, Unix ms
	day    = int64(24 * 60 * 60 * 1000)
	maxOps = 400
)

// world is one run.
type world struct {
	rng       *rand.Rand
	options   Options
	time      int64 // true time
	serverOff int64
	server    Server
	phones    []*phone
	wire      []message
	made      map[string]*made
	handedIn  map[string]bool // operations that were in quarantine
	ids       int
	backups   int
	result    Result
	tracing   bool
	trace     []string
}

// made is an operation that a phone said was saved.
type made struct {
	op    job.Op
	log   string
	by    *phone
	seen  []string // operations on the same register that its author had in sight
	order int
}

// message is a request on its way to the server, or an answer on its way back.
type message struct {
	tab    *tab
	life   int
	log    string
	req    sync.Request
	answer *sync.Response
}

// Run plays one seed. The error says what went wrong and how to play it again.
func Run(seed uint64, options Options) (Result, error) {
	if options.Steps == 0 {
		options.Steps = 250
	}
	w, err := play(seed, options, false)
	if err == nil {
		return w.result, nil
	}
	w, _ = play(seed, options, true) // the same again, writing down what happens
	return w.result, fmt.Errorf("seed %d: %w\nrun it again: go test ./app/sync -run Simulation -simulation.first %d -simulation.seeds 1\nwhat happened:\n  %s", seed, err, seed, strings.Join(w.story(err.Error()), "\n  "))
}

func play(seed uint64, options Options, tracing bool) (*world, error) {
	w := &world{tracing: tracing, rng: rand.New(rand.NewPCG(seed, 0x9a71a2d)), options: options, time: start, made: map[string]*made{}, handedIn: map[string]bool{}}
	return w, w.run()
}

func (w *world) run() error {
	if err := w.begin(); err != nil {
		return err
	}
	for range w.options.Steps {
		w.pass()
		if err := w.step(); err != nil {
			return err
		}
	}
	return w.end()
}

func (w *world) note(format string, args ...any) {
	if !w.tracing {
		return
	}
	w.trace = append(w.trace, fmt.Sprintf("%9.3f h  ", float64(w.time-start)/3.6e6)+fmt.Sprintf(format, args...))
}

// story picks from the trace what has to do with the operations a message names, restores, and the last lines.
func (w *world) story(message string) []string {
	var lines []string
	for i, line := range w.trace {
		told := i > len(w.trace)-12 || strings.Contains(line, "server: ")
		for _, word := range strings.Fields(message) {
			told = told || len(word) == 6 && strings.Trim(word, "0123456789") == "" && strings.Contains(line, word)
		}
		if told {
			lines = append(lines, line)
		}
	}
	return lines
}

func (w *world) newID() string {
	w.ids++
	return fmt.Sprintf("id%06dx%08x", w.ids, w.rng.Uint32())
}

// chance is true in so many of a hundred cases.
func (w *world) chance(percent float64) bool { return w.rng.Float64()*100 < percent }

// pass lets time go by: mostly seconds, now and then hours.
func (w *world) pass() {
	w.time += 1 + int64(w.rng.ExpFloat64()*20_000)
	if w.chance(4) {
		w.time += int64(w.rng.ExpFloat64() * 6 * 3_600_000)
	}
}

func (w *world) serverNow() int64 { return w.time + w.serverOff }

// begin makes the server and the people: an owner, maybe with a second phone, a lead, and helpers.
func (w *world) begin() error {
	w.server = NewMemoryServer(jobID, start)
	if w.options.Server != nil {
		var err error
		if w.server, err = w.options.Server(jobID, start); err != nil {
			return err
		}
	}
	people := []struct {
		name string
		role job.Role
	}{{"Owner", job.Owner}, {"Ines", job.Lead}, {"Tomasz", job.Helper}, {"Bea", job.Helper}}
	for i, who := range people[:2+w.rng.IntN(3)] {
		ends := start + 300*day
		if i > 0 && w.chance(12) {
			ends = start + int64(w.rng.Float64()*float64(day))
		}
		member, err := w.server.Join(who.name, who.role, ends, start)
		if err != nil {
			return err
		}
		ph := &phone{name: who.name, member: member, role: who.role, disk: storage{}, logs: []string{jobID}}
		if who.role == job.Owner {
			ph.logs = append(ph.logs, jobID+sync.OwnSuffix)
		}
		ph.clock = w.clockError()
		for range 1 + w.rng.IntN(2) {
			ph.tabs = append(ph.tabs, &tab{on: ph})
		}
		w.phones = append(w.phones, ph)
	}
	return nil
}

// clockError is how far off a phone's clock is: right in a third of cases, else up to five days.
func (w *world) clockError() int64 {
	if w.chance(33) {
		return int64(w.rng.NormFloat64() * 300)
	}
	return int64((w.rng.Float64()*2 - 1) * 5 * float64(day))
}

func (w *world) anyTab() *tab {
	ph := w.phones[w.rng.IntN(len(w.phones))]
	return ph.tabs[w.rng.IntN(len(ph.tabs))]
}

// Add sums up results.
func (r *Result) Add(o Result) {
	r.Ops += o.Ops
	r.Restores += o.Restores
	r.Silent += o.Silent
	r.Clones += o.Clones
	r.Revoked += o.Revoked
	r.Ended += o.Ended
	r.Lost += o.Lost
	r.Kills += o.Kills
	r.Conflicts += o.Conflicts
	r.Forks += o.Forks
	r.Quarantined += o.Quarantined
}
