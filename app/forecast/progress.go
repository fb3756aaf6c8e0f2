package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

const (
	minuteMS = 60_000
	// longestPause is the longest time between two counts by one hand that is taken for work. From memory, no source.
	longestPause = 30
)

// addObserved adds to the progress of a card the time that its counts and its tick show. Between two counts by the same hand
// lies the work of the later one, if not more than half an hour; a tick ends what its author took up, for as long as
// that is no more than three times what the table says. What was taken and is not ticked is as far as the time since
// says.
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

// stamp is the minute at which a card was ticked or taken; 0 if it is not, or that is not known.
func (f *Forecast) stamp(j *job.Job, key, field string) int {
	readings := j.State.Register(key, field).Readings
	if len(readings) == 0 || field == "done" && !j.Done(key) {
		return 0
	}
	return max(1, int(readings[0].Effective/minuteMS+f.ahead-f.Origin))
}

// begun is the minutes since somebody set to work on a card that they took: not while it still waits, nor before the
// last card that they ticked, nor while its place is shut. Of several cards they are on the one that they took first.
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

// counted is the time between counts, shared out to all that were made: the first ones of each hand took as long as the
// others.
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

// spent puts down minutes of somebody's work under their kind of hands.
func (f *Forecast) spent(who string, minutes float64, into *crew.Progress) {
	for i := range f.People {
		if f.People[i].Name == who && !f.People[i].Practised {
			into.Beginners += minutes
			return
		}
	}
	into.Practised += minutes
}
