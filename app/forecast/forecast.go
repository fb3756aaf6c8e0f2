package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

// Forecast says who does what when, and whether all is done when the doors open. Times are whole minutes from Origin,
// local at the venue; [Forecast.At] writes one as a moment.
type Forecast struct {
	Verdict  string // sure, unsure, late, done, past; unknown: Sentence and Missing say what to fill in
	Sentence string // the answer in one
	Change   string // what has changed since the clock before, if it matters
	Missing  []string
	Origin   int64 // minutes from the beginning of 1970, as if there were no zones
	Now      int
	In       int
	Doors    int
	Finish   int     // by the plan, if nothing strays
	Odds     float64 // of being done by the doors, 0 to 1
	Musts    float64 // of what must be there being done by then, whatever else is
	Half     int     // done by then in half of the runs
	Ninety   int     // in nine of ten
	Runs     int     // how often the plan was played; 0: it was not
	Tried    int     // plans looked at to find this one
	Rough    bool    // a quick plan: a better one is being worked out
	People   []Person
	Tasks    []Task // what is left, in the plan's order of cards
	Drive    int    // minutes
	Evenings []crew.Interval
	Over     []Overrun // whoever is at work for too long

	job         crew.Job
	schedule    crew.Schedule
	forecast    crew.Forecast
	seed        uint64
	fingerprint uint64
	ahead       int64           // minutes by which the venue's time is ahead of UTC
	soft        int             // nothing that goes soft is made before
	usual       []crew.Interval // evenings and morning at home of those who have none of their own; nil: nobody has

	whole    []crew.Task     // done ones too
	progress []crew.Progress // of each
}

// Person is one of the crew.
type Person struct {
	Key, Name string
	Practised bool
}

// Task is a card in the clock.
type Task struct {
	Key, Title, Piece string
	Place             task.Place
	Start, End        int
	StartBy           int // the latest start, with all that follows as planned, that still ends by the doors, or the planned one if none does; [NoTime] where the plan alone says when: at home, on evenings, after the doors
	Hands             int // without which it cannot be done
	Spells            []Spell
	WaitsFor          []string // titles of the cards that keep it from beginning sooner
	Critical          float64  // share of runs in which it is among those that decide the end
	TakenBy           string
}

// Spell is a time somebody, by number among the People, spends on a task.
type Spell struct{ Person, From, To int }

// NoTime stands for a time that is not known or not asked for.
const NoTime = -1 << 30

// Budget is how long a [Forecast] may look: plans to try, and how often to play the best. Pause, if there is one, is
// called every few milliseconds of work; it changes no answer, and need not come back.
type Budget struct {
	Schedules, Runs int
	Pause           func()
}

// The budgets in use: for an answer at once, for one that is read, and for one that is decided by.
var (
	Quick   = Budget{Schedules: 16, Runs: 120}
	Usual   = Budget{Schedules: 400, Runs: crew.Runs}
	Patient = Budget{Schedules: 2500, Runs: crew.Runs}
)

// with is the budget with pauses.
func (b Budget) with(pause func()) Budget {
	b.Pause = pause
	return b
}

// options are those of package crew.
func (b Budget) options(seed uint64) crew.Options {
	return crew.Options{Seed: seed, Schedules: b.Schedules, Runs: b.Runs, Pause: b.Pause}
}

// fit bounds what a job of so many tasks and people costs: above sixty tasks a plan takes longer by about the square of
// both together, so that fewer are made.
func (b Budget) fit(tasks, people int) Budget {
	const usual = 60 * 5
	if times := tasks * people / usual; tasks > 60 && times > 1 {
		b.Schedules, b.Runs = max(8, b.Schedules/times/times), max(100, b.Runs/times)
	}
	return b
}

// At writes a time of the clock as a moment at the venue; empty for [NoTime].
func (c *Forecast) At(minute int) job.Moment {
	if minute == NoTime {
		return ""
	}
	return momentAt(c.Origin + int64(minute))
}

// Task gives the task of a card.
func (c *Forecast) Task(key string) (*Task, bool) {
	if c == nil {
		return nil, false
	}
	for i := range c.Tasks {
		if c.Tasks[i].Key == key {
			return &c.Tasks[i], true
		}
	}
	return nil, false
}

// Planned reports whether the clock has a plan and odds.
func (c *Forecast) Planned() bool { return c != nil && c.Runs > 0 }

// New plans what is left of a job at a time: local minutes since the beginning of 1970. An older clock of the job
// may be given: its plan is kept where it still fits and has better odds, or where only work was done since and a new
// plan would change nothing that matters. Ticks are told in UTC: how far the venue is ahead of it is the older clock's
// to say. The same job, time and budget give the same clock everywhere.
func New(j job.Job, p plan.Plan, now int64, b Budget, kept *Forecast) *Forecast {
	ahead := int64(0)
	if kept != nil {
		ahead = kept.ahead
	}
	c := prepare(&j, &p, now, ahead)
	if c.Sentence == "" {
		c.plan(&p, b, kept)
	}
	return c
}

// prepare makes a clock of what is left, without a plan. Where it has a sentence already there is nothing to plan.
func prepare(j *job.Job, p *plan.Plan, now, ahead int64) *Forecast {
	h := hasher(14695981039346656037)
	h.text(j.ID)
	c := &Forecast{Verdict: "unknown", seed: uint64(h), ahead: ahead}
	c.set(j, p, now)
	if len(c.job.Tasks) > 0 {
		c.fingerprint = c.fingerprintOf(p)
	}
	return c
}

// plan looks for the best plan of the job that is set and says what comes of it.
func (c *Forecast) plan(p *plan.Plan, b Budget, kept *Forecast) {
	if c.search(b, kept) {
		c.tasks(p)
		c.overruns()
		c.say()
	}
}

// search looks for the best plan of the job that is set. It reports whether there is one.
func (c *Forecast) search(b Budget, kept *Forecast) bool {
	b = b.fit(len(c.job.Tasks), len(c.job.People))
	o := b.options(c.seed)
	if kept.Planned() && kept.Origin == c.Origin {
		o.Keep = []crew.Schedule{kept.schedule}
	}
	if !c.find(&o) {
		return false
	}
	if o.Keep != nil && c.onlyLess(kept) {
		if same, err := crew.Carry(kept.schedule, c.job); err == nil {
			if f := o.Odds(same); !crew.Matters(f, c.forecast) {
				c.schedule, c.forecast = same, f
			}
		}
	}
	if c.linger() {
		c.forecast = o.Odds(c.schedule)
	}
	c.tell()
	return true
}

// find finds a plan for the job that is set. It reports whether there is one.
func (c *Forecast) find(o *crew.Options) bool {
	var err error
	if c.schedule, c.forecast, err = crew.Settle(c.job, *o); err != nil {
		c.miss("No plan can be made: " + err.Error() + ".")
	}
	return err == nil
}

// tell takes down what the plan comes to.
func (c *Forecast) tell() {
	f := &c.forecast
	c.Finish, c.Odds, c.Musts, c.Half, c.Ninety, c.Runs, c.Tried = c.schedule.Finish, f.Done, f.Musts, f.Half, f.Ninety, f.Runs, c.schedule.Tried
}

// glance is a search that begins with the plan of another clock and does little more than make it fit.
func (c *Forecast) glance(b Budget, like *Forecast) bool {
	o := b.options(c.seed)
	if like.Planned() && like.Origin == c.Origin {
		o.Like = &like.schedule
	}
	runs := o.Runs
	o.Runs = 1
	if !c.find(&o) {
		return false
	}
	c.linger()
	o.Runs = runs
	c.forecast = o.Odds(c.schedule)
	c.tell()
	return true
}

// onlyLess reports whether some work was done since an older clock and nothing else has changed but the time: then
// people keep to what they were told.
func (c *Forecast) onlyLess(old *Forecast) bool {
	if len(old.job.People) != len(c.job.People) || len(old.job.Tasks) < len(c.job.Tasks) ||
		len(old.whole) != len(c.whole) ||
		old.fingerprint == c.fingerprint {
		return false
	}
	for i := range c.whole { // what a changed design asks for is another matter
		if a, b := &old.whole[i], &c.whole[i]; a.Key != b.Key || a.Minutes != b.Minutes {
			return false
		}
	}
	for i := range c.job.People {
		if old.job.People[i].Key != c.job.People[i].Key {
			return false
		}
	}
	at := 0
	for i := range c.job.Tasks {
		for at < len(old.job.Tasks) && old.job.Tasks[at].Key != c.job.Tasks[i].Key {
			at++
		}
		if at == len(old.job.Tasks) || c.job.Tasks[i].Minutes > old.job.Tasks[at].Minutes {
			return false
		}
	}
	return true
}

// tasks fills in what the schedule says of each card.
func (c *Forecast) tasks(p *plan.Plan) {
	number, titles, cards := map[string]int{}, map[string]string{}, map[string]*task.Card{}
	for i := range c.People {
		number[c.People[i].Key] = i
	}
	for i := range p.Cards {
		titles[p.Cards[i].Key], cards[p.Cards[i].Key] = p.Cards[i].Title, &p.Cards[i]
	}
	c.Tasks = make([]Task, 0, len(c.job.Tasks))
	for i := range c.job.Tasks {
		t := &c.job.Tasks[i]
		slot, there := c.schedule.Slot(t.Key)
		card := cards[t.Key]
		if !there || card == nil {
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
		for _, critical := range c.forecast.Critical {
			if critical.Task == t.Key {
				task.Critical = critical.Share
			}
		}
		c.Tasks = append(c.Tasks, task)
	}
	c.startBy()
}

// startBy works back from the doors: a task must begin in time for all that waits for it, and for what its people do
// next.
func (c *Forecast) startBy() {
	order := make([]int, 0, len(c.Tasks))
	for i := range c.Tasks {
		if c.Tasks[i].Place == task.Site || c.Tasks[i].Place == task.Load {
			order = append(order, i)
		}
	}
	for i := range order { // latest first; there are few
		for k := i; k > 0 && c.Tasks[order[k]].Start > c.Tasks[order[k-1]].Start; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	for at, i := range order {
		t := &c.Tasks[i]
		latest := c.Doors
		for _, k := range order[:at] {
			next := &c.Tasks[k]
			if next.StartBy != NoTime && next.Start >= t.End && c.follows(t, next) {
				lag := 0
				if t.Place == task.Load && next.Place == task.Site {
					lag = c.Drive
				}
				latest = min(latest, next.StartBy-lag)
			}
		}
		t.StartBy = max(latest-(t.End-t.Start), t.Start) // what the plan cannot end by the doors is not put off any more
	}
	for i := range c.Tasks { // what is loaded the evening before is so by the plan, not by the doors
		if t := &c.Tasks[i]; t.Place == task.Load && t.StartBy/dayMinutes != t.Start/dayMinutes {
			t.StartBy = NoTime
		}
	}
}

// follows reports whether a task has to wait for another: by what it is, or for the same hands.
func (c *Forecast) follows(t, next *Task) bool {
	if t.Place == task.Load && next.Place == task.Site {
		return true
	}
	for i := range c.job.Tasks {
		if c.job.Tasks[i].Key != next.Key {
			continue
		}
		for _, before := range c.job.Tasks[i].Before {
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

// ByStart gives the tasks in the order in which they begin.
func (c *Forecast) ByStart() []*Task {
	list := make([]*Task, len(c.Tasks))
	for i := range c.Tasks {
		at := i
		for ; at > 0 && list[at-1].Start > c.Tasks[i].Start; at-- {
			list[at] = list[at-1]
		}
		list[at] = &c.Tasks[i]
	}
	return list
}

// Here reports whether one of the people, by number, goes to a place and is there now.
func (c *Forecast) Here(person int, place task.Place) bool {
	p := &c.job.People[person]
	goes, now := len(p.Only) == 0, len(p.Free) == 0
	for _, only := range p.Only {
		goes = goes || only == placeOf[place]
	}
	for _, free := range p.Free {
		now = now || free.From <= c.Now && c.Now < free.To
	}
	return goes && now
}

// Of gives the first task that the plan has for one of the people, by number, and when they come to it; nil if none.
func (c *Forecast) Of(person int) (first *Task, from int) {
	for i := range c.Tasks {
		for _, s := range c.Tasks[i].Spells {
			if s.Person == person && (first == nil || s.From < from) {
				first, from = &c.Tasks[i], s.From
			}
		}
	}
	return first, from
}

// Has reports whether the plan has one of the people, by number, on a task.
func (t *Task) Has(person int) bool {
	for _, s := range t.Spells {
		if s.Person == person {
			return true
		}
	}
	return false
}

// Helps is the first task that another took and that needs more than one, if the plan has the person, by number, on it
// too; nil if there is none.
func (c *Forecast) Helps(person int) *Task {
	for _, t := range c.ByStart() {
		if t.TakenBy != "" && t.Hands > 1 && t.Has(person) && c.People[person].Name != t.TakenBy {
			return t
		}
	}
	return nil
}

// Number is the one of the people with a name; -1 if there is none.
func (c *Forecast) Number(name string) int {
	if c != nil {
		for i := range c.People {
			if c.People[i].Name == name {
				return i
			}
		}
	}
	return -1
}

// Names is who is on a task, each once, in the order in which they come to it.
func (c *Forecast) Names(t *Task) []string {
	var names []string
	on := make([]bool, len(c.People))
	for _, s := range t.Spells {
		if !on[s.Person] {
			on[s.Person] = true
			names = append(names, c.People[s.Person].Name)
		}
	}
	return names
}
