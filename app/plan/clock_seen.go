package plan

import (
	"garlandry/app/job"
	"garlandry/calc/crew"
)

const (
	minuteMS = 60_000
	// longestPause is the longest time between two counts by one hand that is taken for work. From memory, no source.
	longestPause = 30
)

// seen adds to the progress of a card the time that its counts and its tick show. Between two counts by the same hand
// lies the work of the later one, if not more than half an hour; a tick ends what its author took up, for as long as that
// is no more than three times what the table says.
func (c *Clock) seen(j *job.Job, card *Card, into *crew.Progress) {
	if card.Count > 0 {
		c.counted(j, card, into)
		return
	}
	done, taken := j.State.Register(card.Key, "done"), j.State.Register(card.Key, "taken")
	if !card.Done || len(done.Readings) == 0 {
		return
	}
	end := done.Readings[0]
	if card.TakenBy == "" || len(taken.Readings) == 0 {
		return
	}
	minutes := float64(end.Effective-taken.Readings[0].Effective) / minuteMS
	if hands := float64(max(1, card.HandsMin)); minutes >= 1 && float64(minutes*hands) <= 3*card.Minutes+10 {
		c.spent(card.TakenBy, float64(minutes*hands), into)
	}
}

// counted is the time between counts, shared out to all that were made: the first ones of each hand took as long as the
// others.
func (c *Clock) counted(j *job.Job, card *Card, into *crew.Progress) {
	last := map[string]int64{}
	made := 0.0
	for _, e := range j.State.Tally(card.Key).Live() {
		if e.Pending() || e.Delta <= 0 {
			continue
		}
		before, known := last[e.Author.Name]
		last[e.Author.Name] = e.Effective
		if pause := float64(e.Effective-before) / minuteMS; known && pause > 0 && pause <= longestPause {
			c.spent(e.Author.Name, pause, into)
			made += float64(e.Delta)
		}
	}
	if made > 0 {
		scale := float64(min(card.Count, max(card.Made, 0))) / made
		into.Practised, into.Beginners = float64(into.Practised*scale), float64(into.Beginners*scale)
	}
}

// spent puts down minutes of somebody's work under their kind of hands.
func (c *Clock) spent(who string, minutes float64, into *crew.Progress) {
	for i := range c.People {
		if c.People[i].Name == who && !c.People[i].Practised {
			into.Beginners += minutes
			return
		}
	}
	into.Practised += minutes
}
