package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// tightShare is the share of the window above which the work is called tight. From memory, no source.
const tightShare = 0.8

// window compares the work on site, shared by the people there, with the time from access to doors. It ignores which
// card waits for which.
func window(j job.Job, cards []task.Card) Window {
	w := Window{Hands: 1}
	left := 0.0
	for _, c := range cards {
		if c.Gone {
			continue
		}
		switch c.Place {
		case task.Site:
			w.Work += c.Minutes
			left += c.Left()
		case task.TakeDown:
			w.TakeDown += c.Minutes
		default:
			w.Home += c.Minutes
			w.HomeLeft += c.Left()
		}
	}
	minutes, known := j.Brief.In.MinutesUntil(j.Brief.Doors)
	if known && minutes > 0 {
		w.Known, w.Minutes = true, minutes
		w.Hands = meanHands(j, minutes)
	} else if len(j.Crew) > 0 {
		w.Hands = float64(len(j.Crew))
	}
	if w.Hands > 0 {
		w.Needs, w.Left = w.Work/w.Hands, left/w.Hands
	}
	w.Verdict, w.Reason, w.Sentence = verdict(w)
	return w
}

// meanHands is the crew's minutes in the window over its length; one for a job without crew.
func meanHands(j job.Job, minutes float64) float64 {
	if len(j.Crew) == 0 {
		return 1
	}
	sum := 0.0
	for _, m := range j.Crew {
		from, to := 0.0, minutes
		if late, known := j.Brief.In.MinutesUntil(m.From); known {
			from = max(from, late)
		}
		if until, known := j.Brief.In.MinutesUntil(m.To); known {
			to = min(to, until)
		}
		sum += max(0, to-from)
	}
	return sum / minutes
}

// verdict returns the verdict, its reason, and both in one sentence.
func verdict(w Window) (verdict, reason, sentence string) {
	work := measure.FormatMinutes(w.Work)
	switch {
	case !w.Known:
		reason = "Set access and doors to see if it fits."
		if w.Work > 0 {
			reason = work + " of work on site for one person. " + reason
		}
		return "unknown", reason, reason
	case !(w.Hands > 0) && w.Work > 0:
		reason = "Nobody is there between access and doors, and there is " + work + " of work."
		return "short", reason, reason
	}
	words := work + " of work on site takes " + people(w.Hands) + " " + measure.FormatMinutes(w.Needs) +
		"; you have " + measure.FormatMinutes(w.Minutes) + "."
	switch {
	case w.Needs <= float64(tightShare*w.Minutes):
		return "fits", words, words + " It fits."
	case w.Needs <= w.Minutes:
		return "tight", words + " One delay, and the last pieces won't be done.", words +
			" It is tight: one delay, and the last pieces won't be done."
	}
	return "short", words + " Bring more people, make more at home, or leave a piece out.", words +
		" It does not fit: bring more people, make more at home, or leave a piece out."
}

// people writes a mean number of people.
func people(n float64) string {
	text := measure.FormatNumber(n, 1)
	if text == "1" {
		return "one person"
	}
	return text + " people"
}

// Window is the simple check of work against time.
type Window struct {
	Known    bool    // access and doors are both set
	Minutes  float64 // from access to doors
	Work     float64 // person-minutes on site
	Hands    float64 // mean number of people in the window
	Needs    float64 // minutes the site work takes them
	Left     float64 // minutes the rest of it takes them
	Home     float64 // person-minutes at home and loading
	HomeLeft float64
	Verdict  string // fits, tight, short, unknown
	Reason   string // shown below the verdict
	Sentence string // both in one
	TakeDown float64
}
