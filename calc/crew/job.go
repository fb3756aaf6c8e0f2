package crew

// Place is where a task is done.
type Place uint8

// These are the places, in the order of a job.
const (
	Home     Place = iota // before the day
	Load                  // into the car
	Site                  // between access and the doors
	TakeDown              // after the event
	places
)

// Priority says how much people would miss a task that is left out.
type Priority uint8

// These are the priorities. Musts are never left out.
const (
	Must Priority = iota
	Should
	Could
)

// Interval goes from one minute up to another, which it excludes.
type Interval struct{ From, To int }

// Need is a thing that a task occupies while people work on it.
type Need struct {
	Thing  string
	Units  int // 0 means 1
	Serves int // hands that one set of Units serves; 0: any number
}

// Task is one card. The people who took it are in its team, with further hands as needed. They begin while they are
// there and stay to the end. One of them begins a splittable task; the others join when they can, and all may leave it
// to others. People who are not at its place, or find no room (the first in the job's list come first), count as not
// having taken it.
type Task struct {
	Key        string
	Kind       string   // kind of work, which has a rate
	Piece      string   // the piece it belongs to, which is left out as a whole; "" for the job itself
	Minutes    float64  // person-minutes of practised hands that do not crowd each other
	Beginner   float64  // factor for a beginner's hands; below 1 means 1
	Least      int      // least hands to work on it; 0 means 1
	Most       int      // most hands that have room; less than Least means Least
	Crowding   float64  // share of each person's work that is lost for every further hand, 0 to 0.5
	Spread     float64  // standard deviation of the logarithm of its time in one practised pair of hands, 0 to 2
	Unsteady   float64  // the same in a beginner's hands, 0 to 2; less than Spread means Spread
	Place      Place    //
	Before     []string // keys of tasks that must be done first; unknown ones count as done
	Needs      []Need   //
	Splittable bool     // may be interrupted, and people may join and leave
	Priority   Priority //
	Taken      []string // keys of people who took it, see above
	By         []string // keys of the only people who may do it; empty: everybody at its place
	From       int      // earliest start; 0 or less: when its place opens, so choose an origin before the day
}

// Person is one person.
type Person struct {
	Key       string
	Practised bool
	Free      []Interval // rising, apart; empty: always
	Only      []Place    // empty: everywhere
}

// Thing is a shared resource: a pump, a ladder, a car, a doorway.
type Thing struct {
	Key   string
	Count int
}

// Rate is the estimated speed of a kind of work.
type Rate struct {
	Kind   string
	Factor float64 // factor on the tasks' minutes; 0 means 1
	Spread float64 // standard deviation of the logarithm of the factor, shared by all tasks of the kind, 0 to 2
}

// Job holds the tasks, the people, and when the places are open.
type Job struct {
	Tasks   []Task
	People  []Person
	Things  []Thing
	Rates   []Rate
	Windows [places][]Interval // when a place is open for work, rising; empty: always
	Drive   int                // minutes between the last loading and the first work on site
	Doors   int                // the minute by which all but the take-down must be done
	Now     int                // nothing begins before this minute
}
