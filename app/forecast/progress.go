package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

const minuteMS = 60_000

// addObserved adds to the progress of a card the work on it whose time is known. For a card that is taken and not
// ticked, it is the time since then, which says nothing about how fast the work is.
func (f *Forecast) addObserved(j *job.Job, p *plan.Plan, card *task.Card, known []timed, into *crew.Progress) {
	if card.Count == 0 {
		into.Ended = f.stamp(j, card.Key, "done")
		taken := f.stamp(j, card.Key, "taken")
		if card.TakenBy != "" && taken != 0 && !card.Done {
			f.spent(timed{card.TakenBy, float64(f.begun(j, p, card, taken) * hands(card)), 0}, into)
			return
		}
	}
	for _, work := range known {
		f.spent(work, into)
	}
}

// stamp returns the minute at which a card was ticked or taken; 0 if it was not, or if the server has not said when.
func (f *Forecast) stamp(j *job.Job, key, field string) int {
	readings := j.State.Register(key, field).Readings
	if len(readings) == 0 || readings[0].Pending() || field == "done" && !j.Done(key) {
		return 0
	}
	return max(1, int(readings[0].Effective/minuteMS+f.ahead-f.Origin))
}

// begun returns the minutes of work on a card that is taken. They count from the last card that the person ticked,
// while the place is open, and not while the card waits. Of several cards, people work on the one they took first.
func (f *Forecast) begun(j *job.Job, p *plan.Plan, card *task.Card, from int) (minutes float64) {
	if len(card.Waits) > 0 {
		return 0
	}
	taken := from
	for i := range p.Cards {
		other := &p.Cards[i]
		before := false
		for _, key := range task.Keys(card.After) {
			before = before || key == other.Key
		}
		mine := other.TakenBy == card.TakenBy
		if before || mine && other.Done {
			from = max(from, f.stamp(j, other.Key, "done"))
		} else if at := f.stamp(j, other.Key, "taken"); mine && len(other.Waits) == 0 && 0 < at && at < taken {
			return 0
		}
	}
	for _, open := range f.job.Windows[placeOf[card.Place]] {
		minutes += float64(max(0, min(open.To, f.Now)-max(open.From, from)))
	}
	return minutes
}

// spent adds a person's work under their skill. People who are not in the crew list count as practised.
func (f *Forecast) spent(work timed, into *crew.Progress) {
	for i := range f.People {
		if f.People[i].Name == work.worker && !f.People[i].Practised {
			into.Beginners += work.minutes
			into.ByBeginners += work.share
			return
		}
	}
	into.Practised += work.minutes
	into.ByPractised += work.share
}
