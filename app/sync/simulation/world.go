package simulation

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

const (
	jobID  = "job1"
	start  = int64(1_800_000_000_000) // true time at the beginning, Unix ms
	day    = int64(24 * 60 * 60 * 1000)
	maxOps = 400
)

// world is the state of one run.
type world struct {
	rng       *rand.Rand
	options   Options
	time      int64 // true time
	serverOff int64
	server    Server
	phones    []*device
	insider   *insider // nil: there is none
	wire      []message
	made      map[string]*trackedOp
	handedIn  map[string]bool // operations that were in quarantine
	closed    map[int]bool    // members whose access was revoked
	ids       int
	taps      int
	tokens    int
	backups   int
	latest    int64 // the latest clock of the server
	deep      bool  // the insider has posted a deeply nested value
	archived  bool  // the owner archived the job at least once
	month     bool  // a month has passed since
	calm      bool  // the faults have stopped
	naming    *tap  // the tap whose operations are being made
	named     int   // how many of them are made
	nested    bool  // one tab acts during another's action
	err       error
	result    Result
	tracing   bool
	trace     []string
}

// Run simulates one seed. The error says what went wrong and how to repeat the run.
func Run(seed uint64, options Options) (Result, error) {
	if options.Steps == 0 {
		options.Steps = 250
	}
	w, err := simulate(seed, options, false)
	if err == nil {
		return w.result, nil
	}
	w, _ = simulate(seed, options, true) // repeat the run with a trace
	return w.result, fmt.Errorf(
		"seed %d: %w\nrun it again: go test ./app/sync -run Simulation -simulation.first %d -simulation.seeds 1\n"+
			"what happened:\n  %s",
		seed, err, seed, strings.Join(w.story(err.Error()), "\n  "),
	)
}

func simulate(seed uint64, options Options, tracing bool) (*world, error) {
	w := &world{tracing: tracing, rng: rand.New(rand.NewPCG(seed, 0x9a71a2d)), options: options, time: start,
		made: map[string]*trackedOp{}, handedIn: map[string]bool{}, closed: map[int]bool{}}
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
		if w.err != nil {
			return w.err
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

// story selects trace lines: those about operations that the message names, about the server, and the last ones.
func (w *world) story(message string) []string {
	var lines []string
	for i, line := range w.trace {
		relevant := i > len(w.trace)-12 || strings.Contains(line, "server: ") || strings.Contains(line, "emptied")
		for _, word := range strings.FieldsFunc(message, func(r rune) bool { return r == ' ' || r == ',' }) {
			relevant = relevant || len(word) == 6 && strings.Trim(word, "0123456789") == "" && strings.Contains(line, word)
		}
		if relevant {
			lines = append(lines, line)
		}
	}
	return lines
}

// newID derives an operation's id from its form, so that a repeated form gives the same id. Other ids are random.
func (w *world) newID() string {
	if w.naming != nil {
		w.named++
		return fmt.Sprintf("id1%05dn%d", w.naming.number, w.named)
	}
	w.ids++
	return fmt.Sprintf("id%06dx%08x", w.ids, w.rng.Uint32())
}

// chance returns true with the given probability in percent.
func (w *world) chance(percent float64) bool { return w.rng.Float64()*100 < percent }

// pass advances the time: mostly by seconds, sometimes by hours.
func (w *world) pass() {
	w.time += 1 + int64(w.rng.ExpFloat64()*20_000)
	if w.chance(4) {
		w.time += int64(w.rng.ExpFloat64() * 6 * 3_600_000)
	}
}

// serverNow is the server's clock.
func (w *world) serverNow() int64 {
	now := w.time + w.serverOff
	w.latest = max(w.latest, now)
	return now
}

func (w *world) logs() []string { return []string{jobID, jobID + sync.OwnSuffix} }

// begin makes the server and the people: an owner, maybe with a second device, a lead, helpers, and maybe an insider.
func (w *world) begin() error {
	w.server = newMemoryServer(jobID, start, w.options.Sabotage)
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
	people = people[:2+w.rng.IntN(3)]
	if w.chance(40) {
		people = append(people, people[0])
		people[len(people)-1].name = "Owner's tablet"
	}
	for i, who := range people {
		ends := start + 300*day
		if i > 0 && who.role != job.Owner && w.chance(12) {
			ends = start + int64(w.rng.Float64()*float64(day))
		}
		member, err := w.server.Join(who.name, who.role, ends, start)
		if err != nil {
			return err
		}
		ph := &device{name: who.name, member: member, role: who.role, disk: newDisk(), journal: &journal{},
			logs: []string{jobID}}
		if who.role == job.Owner {
			ph.logs = append(ph.logs, jobID+sync.OwnSuffix)
		}
		ph.clock = w.clockError()
		for range 1 + w.rng.IntN(3) {
			ph.tabs = append(ph.tabs, &tab{on: ph})
		}
		w.phones = append(w.phones, ph)
	}
	if !w.chance(50) {
		return nil
	}
	return w.addInsider()
}

// clockError returns a random error of a phone's clock: under a second in a third of cases, else up to five days.
func (w *world) clockError() int64 {
	if w.chance(33) {
		return int64(w.rng.NormFloat64() * 300)
	}
	return int64((w.rng.Float64()*2 - 1) * 5 * float64(day))
}

func (w *world) anyPhone() *device { return w.phones[w.rng.IntN(len(w.phones))] }

func (w *world) anyTab() *tab {
	ph := w.anyPhone()
	return ph.tabs[w.rng.IntN(len(ph.tabs))]
}
