package crew

// Place is where a task is done.
type Place uint8

// The places, in the order of a job.
const (
	Home     Place = iota // before the day
	Load                  // into the car
	Site                  // between being let in and the doors
	TakeDown              // after the event
	places
)

// Priority is how much people miss a task that is left out.
type Priority uint8

// The priorities. Musts are never left out.
const (
	Must Priority = iota
	Should
	Could
)

// Interval runs from one minute up to another, which it excludes.
type Interval struct{ From, To int }

// Need is a thing that a task occupies while people work on it.
type Need struct {
	Thing  string
	Units  int // 0 means 1
	Serves int // hands that one lot of Units serves; 0: any number
}

// Task is one card. Those who took it are in its team, further hands as needed: they
// begin while they are there and stay on to the end. One that is splittable is begun by
// one of them, the others join when they can, and all may leave it to others. Whoever is
// not at its place any more, or finds no room (the first of the job's people come first),
// did not take it.
type Task struct {
	Key        string
	Kind       string   // of work: what its rate is learnt by
	Piece      string   // what it is a part of: pieces are left out whole; empty: of the job itself
	Minutes    float64  // person-minutes of practised hands that do not crowd each other
	Beginner   float64  // times as long as that in a beginner's hands; below 1 is read as 1
	Least      int      // hands without which it cannot be worked on; 0 means 1
	Most       int      // hands that find room; less than Least is read as Least
	Crowding   float64  // share of each one's work lost for every further hand, 0 to 0.5
	Spread     float64  // standard deviation of the logarithm of its time in one practised pair of hands, 0 to 2
	Unsteady   float64  // the same in a beginner's hands, 0 to 2; less than Spread is read as Spread
	Place      Place    //
	Before     []string // keys of tasks that must be done first; unknown ones count as done
	Needs      []Need   //
	Splittable bool     // may be interrupted, and people may join and leave
	Priority   Priority //
	Taken      []string // keys of people who took it: see below
	From       int      // no sooner than this minute; 0 or less: as its place allows, so let the origin lie before the day
}

// Person is a pair of hands.
type Person struct {
	Key       string
	Practised bool
	Free      []Interval // rising, apart; none: always
	Only      []Place    // none: everywhere
}

// Thing is something shared: a pump, a ladder, a car, a doorway.
type Thing struct {
	Key   string
	Count int
}

// Rate is the estimated speed of a kind of work.
type Rate struct {
	Kind   string
	Factor float64 // times the tasks' minutes; 0 means 1
	Spread float64 // standard deviation of the logarithm of the factor, shared by all tasks of the kind, 0 to 2
}

// Job is the tasks, the people, and when the places are open.
type Job struct {
	Tasks   []Task
	People  []Person
	Things  []Thing
	Rates   []Rate
	Windows [places][]Interval // when a place may be worked at, rising; none: always
	Drive   int                // minutes between the last loading and the first work on site
	Doors   int                // the minute by which all but the take-down is to be done
	Now     int                // nothing begins before
}
