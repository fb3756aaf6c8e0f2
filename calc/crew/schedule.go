package crew

// Spell is a time that a person spends on a task.
type Spell struct {
	Person   string
	From, To int
}

// Slot says when a task is worked on, and by whom.
type Slot struct {
	Task       string
	Start, End int
	Spells     []Spell  // by start, then in the order of people; empty for a task without work
	WaitedFor  []string // keys of tasks that kept it from beginning sooner; empty: its place, its people or its own From
}

// Schedule is a plan of a whole job.
type Schedule struct {
	Slots   []Slot   // in the order of the job's tasks
	Finish  int      // the minute at which all but the take-down is done; Now if there is nothing
	Proven  bool     // no plan ends sooner: the bound was reached, or everything was tried
	StaysOn []string // people who stay on a task although they should be away, because nobody else can finish it
	Tried   int      // schedules generated
	network *network
	planned *model
}

// Slot returns the slot of a task by key; ok is false if there is none.
func (s Schedule) Slot(task string) (slot Slot, ok bool) {
	for _, slot := range s.Slots {
		if slot.Task == task {
			return slot, true
		}
	}
	return Slot{}, false
}
