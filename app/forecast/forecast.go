package forecast

import (
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

// Forecast is a plan of who does what when, with the odds that all is done when the doors open. Times are whole minutes
// from Origin, local at the venue. [Forecast.At] turns one into a moment.
type Forecast struct {
	Verdict  string // sure, unsure, late, done, past; unknown: Sentence and Missing say what to fill in
	Sentence string // the answer in one sentence
	Change   string // what changed since the last forecast, if it matters
	Missing  []string
	Origin   int64 // minutes from the beginning of 1970, as if there were no zones
	Now      int
	In       int
	Doors    int
	Finish   int     // by the plan, if every card takes its planned time
	Odds     float64 // of being done by the doors, 0 to 1
	Musts    float64 // odds of all must-haves being done by then; 0 if nobody can do one
	Half     int     // done by then in half of the runs
	Ninety   int     // in nine of ten
	Runs     int     // simulations of the plan; 0: there is no plan
	Tried    int     // plans compared
	Rough    bool    // a quick plan: a better one is being worked out
	People   []Person
	Tasks    []Task // what is left, in the plan's order of cards
	Drive    int    // minutes
	Evenings []crew.Interval
	Over     []Overrun // who works for too long
	Blocked  []Blocked // cards that nobody can do: the figures are about the others

	job         crew.Job
	schedule    crew.Schedule
	forecast    crew.Forecast
	seed        uint64
	fingerprint uint64
	ahead       int64           // minutes that the venue's time is ahead of UTC
	soft        int             // balloons filled before would go soft
	usual       []crew.Interval // times at home of those without their own; nil: nobody has their own

	whole    []crew.Task     // all tasks, done ones too
	progress []crew.Progress // of each
	floats   []plan.Float
}

// Person is one of the crew.
type Person struct {
	Key, Name string
	Practised bool
}

// Task is a card in the forecast.
type Task struct {
	Key, Title, Piece string
	Place             task.Place
	Start, End        int
	StartBy           int // see startBy; [NoTime] at home, on evenings and after the doors
	Hands             int // people needed at once
	Spells            []Spell
	WaitsFor          []string // titles of the cards that must end first
	Critical          float64  // share of runs with the task on the critical path
	TakenBy           string
}

// Spell is a time that a person, by index in People, spends on a task.
type Spell struct{ Person, From, To int }

// NoTime stands for an unknown time.
const NoTime = -1 << 30

// Budget limits the search for a plan: plans to compare, and simulations of the best. Smaller is how many steps of
// fewer people, pumps and the like are planned first, so that one more never makes the forecast worse. Holds is how
// many later starts of filling with helium are tried. Pause, if set, is called every few milliseconds of work. It
// changes no answer and need not return.
type Budget struct {
	Schedules, Runs int
	Smaller, Holds  int
	Pause           func()
}

// Budgets for an immediate answer, for the first odds, for an answer to read, and for one to base decisions on.
var (
	Quick   = Budget{Schedules: 16, Runs: 120}
	Fair    = Budget{Schedules: 300, Runs: crew.Runs}
	Usual   = Budget{Schedules: 300, Runs: crew.Runs, Smaller: 16, Holds: 4}
	Patient = Budget{Schedules: 2500, Runs: crew.Runs, Smaller: 16, Holds: 4}
)

// with returns the budget with pauses.
func (b Budget) with(pause func()) Budget {
	b.Pause = pause
	return b
}

// options converts the budget into options of package crew.
func (b Budget) options(seed uint64) crew.Options {
	return crew.Options{Seed: seed, Schedules: b.Schedules, Runs: b.Runs, Smaller: b.Smaller, Pause: b.Pause}
}

// fit limits the time for a large job. Above 60 tasks the time for a plan grows with about the square of tasks times
// people, so fewer plans are made.
func (b Budget) fit(tasks, people int) Budget {
	const usual = 60 * 5
	if times := tasks * people / usual; tasks > 60 && times > 1 {
		b.Schedules, b.Runs, b.Smaller = max(8, b.Schedules/times/times), max(100, b.Runs/times), min(1, b.Smaller)
	}
	return b
}

// At turns a time into a moment at the venue. It is empty for [NoTime].
func (f *Forecast) At(minute int) job.Moment {
	if minute == NoTime {
		return ""
	}
	return momentAt(f.Origin + int64(minute))
}

// SameDay reports whether two times are on one day at the venue.
func (f *Forecast) SameDay(a, b int) bool { return a/dayMinutes == b/dayMinutes }

// Task returns the task of a card.
func (f *Forecast) Task(key string) (*Task, bool) {
	if f == nil {
		return nil, false
	}
	for i := range f.Tasks {
		if f.Tasks[i].Key == key {
			return &f.Tasks[i], true
		}
	}
	return nil, false
}

// Planned reports whether there is a plan with odds.
func (f *Forecast) Planned() bool { return f != nil && f.Runs > 0 }

// New plans the work left in a job. Now is in local minutes since 1970. Kept is an earlier forecast or nil. Its plan
// stays if it has better odds, or if only work was done since and a new plan changes nothing that matters. Ticks are in
// UTC; kept knows how far the venue is ahead of it. Equal input gives an equal forecast on every machine.
func New(j job.Job, p plan.Plan, now int64, b Budget, kept *Forecast) *Forecast {
	ahead := int64(0)
	if kept != nil {
		ahead = kept.ahead
	}
	f := prepare(&j, &p, now, ahead)
	if f.Sentence == "" {
		f.plan(&p, b, kept)
	}
	return f
}

// prepare returns the forecast without its plan. If it has a sentence already, there is nothing to plan.
func prepare(j *job.Job, p *plan.Plan, now, ahead int64) *Forecast {
	var h hasher
	h.texts(j.ID)
	f := &Forecast{Verdict: "unknown", seed: h.sum(), ahead: ahead}
	f.set(j, p, now)
	if len(f.job.Tasks) > 0 {
		f.fingerprint = f.fingerprintOf(p)
	}
	return f
}

// plan searches the best plan and fills in tasks, overruns, verdict and sentence.
func (f *Forecast) plan(p *plan.Plan, b Budget, kept *Forecast) {
	if f.search(p, b, kept) {
		f.tasks(p)
		f.overruns()
		f.say()
	}
}

// search finds the best plan within the budget. It reports whether there is a plan.
func (f *Forecast) search(p *plan.Plan, b Budget, kept *Forecast) bool {
	b = b.fit(len(f.job.Tasks), len(f.job.People))
	o := b.options(f.seed)
	if kept.Planned() && kept.Origin == f.Origin {
		o.Keep = []crew.Schedule{kept.schedule}
	}
	if !f.find(&o) {
		return false
	}
	if o.Keep != nil && f.onlyLess(kept) {
		if same, err := crew.Carry(kept.schedule, f.job); err == nil {
			if odds := o.Odds(same); !crew.Matters(odds, f.forecast) {
				f.schedule, f.forecast = same, odds
			}
		}
	}
	if f.linger() {
		f.forecast = o.Odds(f.schedule)
	}
	floor := 0.0
	if o.Keep != nil {
		floor = kept.Odds
	}
	f.holdHelium(p, &o, b.Holds, floor)
	f.floats = p.Floats()
	f.tell()
	return true
}

// find finds a plan with the options. It reports whether there is a plan.
func (f *Forecast) find(o *crew.Options) bool {
	var err error
	if f.schedule, f.forecast, err = crew.Settle(f.job, *o); err != nil {
		f.miss("No plan is possible: " + err.Error() + ".")
	}
	return err == nil
}

// tell copies end and odds of the plan into the exported fields.
func (f *Forecast) tell() {
	odds := &f.forecast
	f.Finish, f.Tried, f.Runs = f.schedule.Finish, f.schedule.Tried, odds.Runs
	f.Odds, f.Musts, f.Half, f.Ninety = odds.Done, odds.Musts, odds.Half, odds.Ninety
	if f.MustBlocked() {
		f.Musts = 0
	}
}

// glance is a short search that starts with the plan of another forecast.
func (f *Forecast) glance(b Budget, like *Forecast) bool {
	o := b.options(f.seed)
	if like.Planned() && like.Origin == f.Origin {
		o.Like = &like.schedule
	}
	runs := o.Runs
	o.Runs = 1
	if !f.find(&o) {
		return false
	}
	f.linger()
	o.Runs = runs
	f.forecast = o.Odds(f.schedule)
	f.tell()
	return true
}

// onlyLess reports whether nothing changed since an old forecast but the time and work that was done. Then people keep
// to the plan they know.
func (f *Forecast) onlyLess(old *Forecast) bool {
	if len(old.job.People) != len(f.job.People) || len(old.job.Tasks) < len(f.job.Tasks) ||
		len(old.whole) != len(f.whole) || old.In != f.In || old.Doors != f.Doors ||
		old.fingerprint == f.fingerprint {
		return false
	}
	for i := range f.whole { // a changed design needs a new plan
		if a, b := &old.whole[i], &f.whole[i]; a.Key != b.Key || a.Minutes != b.Minutes {
			return false
		}
	}
	for i := range f.job.People {
		if !same(&old.job.People[i], &f.job.People[i]) {
			return false
		}
	}
	at := 0
	for i := range f.job.Tasks {
		for at < len(old.job.Tasks) && old.job.Tasks[at].Key != f.job.Tasks[i].Key {
			at++
		}
		if at == len(old.job.Tasks) || f.job.Tasks[i].Minutes > old.job.Tasks[at].Minutes {
			return false
		}
	}
	return true
}

// same reports whether two entries are the same person, with the same skill and hours.
func same(a, b *crew.Person) bool {
	return a.Key == b.Key && a.Practised == b.Practised && slices.Equal(a.Free, b.Free) && slices.Equal(a.Only, b.Only)
}

// tasks fills in the tasks from the schedule.
func (f *Forecast) tasks(p *plan.Plan) {
	number, titles, cards := map[string]int{}, map[string]string{}, map[string]*task.Card{}
	for i := range f.People {
		number[f.People[i].Key] = i
	}
	for i := range p.Cards {
		titles[p.Cards[i].Key], cards[p.Cards[i].Key] = p.Cards[i].Title, &p.Cards[i]
	}
	f.Tasks = make([]Task, 0, len(f.job.Tasks))
	for i := range f.job.Tasks {
		t := &f.job.Tasks[i]
		slot, found := f.schedule.Slot(t.Key)
		card := cards[t.Key]
		if !found || card == nil {
			continue
		}
		task := Task{Key: t.Key, Title: card.Title, Piece: card.Piece, Place: card.Place, Start: slot.Start,
			End: slot.End, StartBy: NoTime, Hands: t.Least, TakenBy: card.TakenBy}
		for _, s := range slot.Spells {
			task.Spells = append(task.Spells, Spell{number[s.Person], s.From, s.To})
		}
		for _, key := range slot.WaitedFor {
			task.WaitsFor = append(task.WaitsFor, titles[key])
		}
		for _, critical := range f.forecast.Critical {
			if critical.Task == t.Key {
				task.Critical = critical.Share
			}
		}
		f.Tasks = append(f.Tasks, task)
	}
	f.startBy()
}

// startBy sets the latest start of each task that still ends by the doors, with all that follows as planned. It works
// back from the doors. If the plan is late, it is the planned start.
func (f *Forecast) startBy() {
	order := make([]int, 0, len(f.Tasks))
	for i := range f.Tasks {
		if f.Tasks[i].Place == task.Site || f.Tasks[i].Place == task.Load {
			order = append(order, i)
		}
	}
	for i := range order { // latest first; there are few
		for k := i; k > 0 && f.Tasks[order[k]].Start > f.Tasks[order[k-1]].Start; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	for at, i := range order {
		t := &f.Tasks[i]
		latest := f.Doors
		for _, k := range order[:at] {
			next := &f.Tasks[k]
			if next.StartBy != NoTime && next.Start >= t.End && f.follows(t, next) {
				lag := 0
				if t.Place == task.Load && next.Place == task.Site {
					lag = f.Drive
				}
				latest = min(latest, next.StartBy-lag)
			}
		}
		t.StartBy = max(latest-(t.End-t.Start), t.Start) // late already: not put off further
	}
	for i := range f.Tasks { // loading on the evening before is not bound by the doors
		if t := &f.Tasks[i]; t.Place == task.Load && t.StartBy/dayMinutes != t.Start/dayMinutes {
			t.StartBy = NoTime
		}
	}
}

// follows reports whether next has to wait for t, for its result or for its people.
func (f *Forecast) follows(t, next *Task) bool {
	if t.Place == task.Load && next.Place == task.Site {
		return true
	}
	for i := range f.job.Tasks {
		if f.job.Tasks[i].Key != next.Key {
			continue
		}
		for _, before := range f.job.Tasks[i].Before {
			if before == t.Key {
				return true
			}
		}
	}
	for _, title := range next.WaitsFor {
		if title == t.Title {
			return true
		}
	}
	for _, a := range t.Spells {
		for _, b := range next.Spells {
			if a.Person == b.Person {
				return true
			}
		}
	}
	return false
}

// ByStart returns the tasks, earliest start first.
func (f *Forecast) ByStart() []*Task {
	list := make([]*Task, len(f.Tasks))
	for i := range f.Tasks {
		at := i
		for ; at > 0 && list[at-1].Start > f.Tasks[i].Start; at-- {
			list[at] = list[at-1]
		}
		list[at] = &f.Tasks[i]
	}
	return list
}

// Here reports whether a person, by index, goes to a place and is there now.
func (f *Forecast) Here(person int, place task.Place) bool {
	p := &f.job.People[person]
	goes, now := len(p.Only) == 0, len(p.Free) == 0
	for _, only := range p.Only {
		goes = goes || only == placeOf[place]
	}
	for _, free := range p.Free {
		now = now || free.From <= f.Now && f.Now < free.To
	}
	return goes && now
}

// Of returns the first task of a person, by index, and when they start on it. It returns nil if there is none.
func (f *Forecast) Of(person int) (first *Task, from int) {
	for i := range f.Tasks {
		for _, s := range f.Tasks[i].Spells {
			if s.Person == person && (first == nil || s.From < from) {
				first, from = &f.Tasks[i], s.From
			}
		}
	}
	return first, from
}

// Has reports whether a person, by index, works on the task.
func (t *Task) Has(person int) bool {
	for _, s := range t.Spells {
		if s.Person == person {
			return true
		}
	}
	return false
}

// Helps returns the first task for several people that somebody else took and this person, by index, works on too. It
// returns nil if there is none.
func (f *Forecast) Helps(person int) *Task {
	for _, t := range f.ByStart() {
		if t.TakenBy != "" && t.Hands > 1 && t.Has(person) && f.People[person].Name != t.TakenBy {
			return t
		}
	}
	return nil
}

// Number returns the index of the person with a name, -1 if there is none.
func (f *Forecast) Number(name string) int {
	if f != nil {
		for i := range f.People {
			if f.People[i].Name == name {
				return i
			}
		}
	}
	return -1
}

// Names returns the names of the people on a task, in the order in which they start.
func (f *Forecast) Names(t *Task) []string {
	var names []string
	on := make([]bool, len(f.People))
	for _, s := range t.Spells {
		if !on[s.Person] {
			on[s.Person] = true
			names = append(names, f.People[s.Person].Name)
		}
	}
	return names
}
