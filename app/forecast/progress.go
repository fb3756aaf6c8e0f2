package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

const (
	minuteMS = 60_000
	// longestPause is the longest time between two counts by one person that passes as work. From memory, no source.
	longestPause = 30
)

// addObserved adds the time that counts and ticks show to the progress of a card. The time between two counts by the
// same person is work, up to half an hour. The time from taking a card to its tick is work, up to three times the
// table's. For a card that is taken and not ticked, it is the time since then.
func (f *Forecast) addObserved(j *job.Job, p *plan.Plan, card *task.Card, into *crew.Progress) {
	if card.Count > 0 {
		f.counted(j, card, into)
		return
	}
	into.Ended = f.stamp(j, card.Key, "done")
	taken, hands := f.stamp(j, card.Key, "taken"), float64(max(1, card.HandsMin))
	switch {
	case card.TakenBy == "" || taken == 0:
	case !card.Done:
		f.spent(card.TakenBy, float64(f.begun(j, p, card, taken)*hands), into)
	case into.Ended > 0:
		minutes := float64(
			j.State.Register(card.Key, "done").Readings[0].Effective-j.State.Register(card.Key, "taken").Readings[0].Effective,
		) / minuteMS
		if minutes >= 1 && float64(minutes*hands) <= float64(3*card.Minutes)+10 {
			f.spent(card.TakenBy, float64(minutes*hands), into)
		}
	}
}

// stamp returns the minute at which a card was ticked or taken; 0 if it was not.
func (f *Forecast) stamp(j *job.Job, key, field string) int {
	readings := j.State.Register(key, field).Readings
	if len(readings) == 0 || field == "done" && !j.Done(key) {
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

// counted adds the time between counts, scaled to all that were made: the first of each person has no time of its own.
func (f *Forecast) counted(j *job.Job, card *task.Card, into *crew.Progress) {
	last := map[string]int64{}
	made := 0.0
	for _, e := range j.State.Tally(card.Key).Live() {
		if e.Pending() || e.Delta <= 0 {
			continue
		}
		before, known := last[e.Author.Name]
		last[e.Author.Name] = e.Effective
		if pause := float64(e.Effective-before) / minuteMS; known && pause > 0 && pause <= longestPause {
			f.spent(e.Author.Name, pause, into)
			made += float64(e.Delta)
		}
	}
	if made > 0 {
		scale := float64(min(card.Count, max(card.Made, 0))) / made
		into.Practised, into.Beginners = float64(into.Practised*scale), float64(into.Beginners*scale)
	}
}

// spent adds minutes of a person's work under their skill.
func (f *Forecast) spent(who string, minutes float64, into *crew.Progress) {
	for i := range f.People {
		if f.People[i].Name == who && !f.People[i].Practised {
			into.Beginners += minutes
			return
		}
	}
	into.Practised += minutes
}
