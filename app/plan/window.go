package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// tightShare is the share of the window above which the work is called tight. From memory, no source.
const tightShare = 0.8

// window compares the work on site, shared by the hands that are there, with the time from being let in to the doors.
// It ignores what must wait for what.
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
		reason = "Set when you are let in and when the doors open to see if it fits."
		if w.Work > 0 {
			reason = work + " of work on site for one pair of hands. " + reason
		}
		return "unknown", reason, reason
	case !(w.Hands > 0) && w.Work > 0:
		reason = "Nobody of the crew is there between being let in and the doors, and there are " + work + " of work."
		return "short", reason, reason
	}
	words := work + " of work on site over " + handsWords(w.Hands) + " takes " + measure.FormatMinutes(
		w.Needs,
	) + "; you have " + measure.FormatMinutes(w.Minutes) + "."
	switch {
	case w.Needs <= float64(tightShare*w.Minutes):
		return "fits", words, words + " It fits."
	case w.Needs <= w.Minutes:
		return "tight", words + " One delay and the last pieces are not done.", words +
			" It is tight: one delay and the last pieces are not done."
	}
	return "short", words + " Bring more hands, make more at home, or leave a piece out.", words +
		" It does not fit: bring more hands, make more at home, or leave a piece out."
}

// handsWords writes a mean number of hands.
func handsWords(hands float64) string {
	text := measure.FormatNumber(hands, 1)
	if text == "1" {
		return "one pair of hands"
	}
	return text + " pairs of hands"
}

// Window is the simple check of work against time.
type Window struct {
	Known    bool    // in and doors are both set
	Minutes  float64 // from let in to doors
	Work     float64 // person-minutes on site
	Hands    float64 // mean number of hands in the window
	Needs    float64 // minutes the site work takes with these hands
	Left     float64 // minutes of site work still to do with these hands
	Home     float64 // person-minutes at home and loading
	HomeLeft float64
	Verdict  string // fits, tight, short, unknown
	Reason   string // below the verdict
	Sentence string // both in one
	TakeDown float64
}
