package forecast

import (
	"strconv"
	"time"

	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"

	"garlandry/app/job"
	"garlandry/calc/crew"
)

const (
	dayMinutes  = 24 * 60
	daysAhead   = 8               // the origin lies so many days before the day
	faraway     = 40 * dayMinutes // a window that stays open
	clockStep   = 5               // minutes in which the clock moves on
	leastShared = 5               // of a count that is shared out and left half done: two digits are not. From memory, no source
)

// spreadOf is how far the time of a card varies: the standard deviation of its logarithm.
func spreadOf(p *plan.Plan, kind string, s figures.Skill) float64 {
	k := figures.KindOfWork{Name: kind}
	key := k.StrayKey(s)
	if kind == "" {
		key = "clock/spread"
	}
	return p.Figure(key) / 100
}

// miss adds something that has to be filled in before there can be a clock.
func (c *Forecast) miss(what string) {
	c.Missing = append(c.Missing, what)
	c.Sentence = c.Missing[0]
}

// set makes the crew's job of what is left. Where there is nothing to plan the clock says why.
func (c *Forecast) set(j *job.Job, p *plan.Plan, now int64) {
	in, known := j.Brief.In.Time()
	doors, known2 := j.Brief.Doors.Time()
	if !known {
		c.miss("Say from when the venue lets you in: then the clock can tell whether you will be done.")
	}
	if !known2 {
		c.miss("Say when the doors open: then the clock can tell whether you will be done.")
	}
	open := false
	for i := range p.Cards {
		open = open || !p.Cards[i].Gone
	}
	if !open {
		c.miss("There is nothing to do yet: add a piece, and its cards come onto the clock.")
	}
	if len(c.Missing) > 0 {
		return
	}
	inDay := time.Date(in.Year(), in.Month(), in.Day(), 0, 0, 0, 0, time.UTC)
	c.Origin = inDay.AddDate(0, 0, -daysAhead).Unix() / 60
	c.In, c.Doors = int(in.Unix()/60-c.Origin), int(doors.Unix()/60-c.Origin)
	if c.Doors <= c.In || c.Doors > c.In+15*dayMinutes {
		c.miss("The doors must open after you are let in.")
		return
	}
	c.Now = int(min(max(now-c.Origin, 0), faraway))
	c.windows(j, p)
	c.crew(j)
	c.things(j, p)
	if len(c.job.Windows[crew.Home]) > 0 && c.Now < c.job.Windows[crew.Home][0].From {
		c.Now = 0
	}
	c.Now -= c.Now % clockStep
	c.progress = c.cards(j, p)
	c.whole = c.job.Tasks
	c.job = crew.Left(c.job, c.Now, c.progress)
	c.freshen()
	c.settle(p)
}

// things are pumps, ladders and cars, as many as the kit has, one if it names none; the valve of one cylinder, and the
// doorway that all comes in by.
func (c *Forecast) things(j *job.Job, p *plan.Plan) {
	for _, kind := range [...]string{"pump", "ladder", "car", "cylinder", "doorway"} {
		count := 0
		for i := range j.Kit {
			if j.Kit[i].Kind == kind {
				count += j.Kit[i].Count
			}
		}
		c.job.Things = append(c.job.Things, crew.Thing{Key: kind, Count: max(1, count)})
	}
	spread := p.Figure("clock/spread-kind") / 100
	for _, kind := range figures.KindsOfWork() {
		c.job.Rates = append(c.job.Rates, crew.Rate{Kind: kind, Factor: 1, Spread: spread})
	}
}

var placeOf = map[task.Place]crew.Place{task.Home: crew.Home, task.Load: crew.Load, task.Site: crew.Site, task.TakeDown: crew.TakeDown}

var priorityOf = map[string]crew.Priority{"should": crew.Should, "could": crew.Could}

// cards makes a task of every card, done ones too, so that what was seen of them counts; and says how far they are.
func (c *Forecast) cards(j *job.Job, p *plan.Plan) []crew.Progress {
	narrow := task.NarrowDoor(&j.Brief, p.Figure("hands/doorway"))
	down := 0 // hands for the take-down; without its time or anybody there it is left out
	if w := c.job.Windows[crew.TakeDown]; len(w) > 0 {
		down = c.hands(crew.TakeDown, w[0].From)
	}
	crowding, serves := p.Figure("clock/crowding")/100, int(p.Figure("clock/pump-hands"))
	progress := make([]crew.Progress, 0, len(p.Cards))
	there := false // somebody works on site already
	for i := range p.Cards {
		there = there || p.Cards[i].Place == task.Site && (p.Cards[i].Done || p.Cards[i].Made > 0)
	}
	for i := range p.Cards {
		card := &p.Cards[i]
		if card.Gone || card.Place == task.TakeDown && down < card.HandsMin {
			continue
		}
		fast, slow := card.MinutesBy[string(figures.Practised)], card.MinutesBy[string(figures.Beginner)]
		piece, _ := j.Piece(card.Piece)
		t := crew.Task{Key: card.Key, Kind: kindOf(card, piece.Kind), Piece: card.Piece, Minutes: fast,
			Beginner: 1, Least: card.HandsMin, Most: card.HandsMax, Crowding: crowding,
			Place: placeOf[card.Place], Before: task.Keys(card.After),
			Splittable: card.Count >= leastShared && card.HandsMin <= 1, Priority: priorityOf[card.Priority]}
		t.Spread, t.Unsteady = spreadOf(p, t.Kind, figures.Practised), spreadOf(p, t.Kind, figures.Beginner)
		if fast > 0 {
			t.Beginner = min(100, max(1, slow/fast))
		}
		if who := c.Number(card.TakenBy); who >= 0 && !card.Done {
			t.Taken = []string{c.People[who].Key}
		}
		t.Needs = c.needs(card, &t, &piece, serves, narrow)
		if card.Key == task.FamilyLoad.Only().Key() { // nothing is carried out while it is still being made
			for k := range p.Cards {
				if p.Cards[k].Place == task.Home {
					t.Before = append(t.Before[:len(t.Before):len(t.Before)], p.Cards[k].Key)
				}
			}
		}
		c.job.Tasks = append(c.job.Tasks, t)
		done := crew.Progress{Task: card.Key, Done: card.Done}
		if card.Count > 0 {
			done.Share = min(1, float64(card.Made)/float64(card.Count))
		}
		c.seen(j, p, card, &done)
		if there {
			done.Ended = 0
		}
		progress = append(progress, done)
	}
	return progress
}

// needs are the things that a card keeps: a pump for so many hands or the cylinder, a ladder, the car, and what is
// carried the doorway, if it is narrow.
func (c *Forecast) needs(card *task.Card, t *crew.Task, piece *job.Piece, serves int, narrow bool) (list []crew.Need) {
	add := func(thing string, serves int) { list = append(list, crew.Need{Thing: thing, Serves: serves}) }
	switch {
	case t.Kind == "fill" && piece.Gas == "helium":
		add("cylinder", serves)
	case t.Kind == "fill":
		add("pump", serves)
	case t.Kind == "car" && card.Piece == "", t.Kind == "trip":
		add("car", 0)
	}
	if narrow && t.Kind == "car" && card.Place != task.Load {
		add("doorway", 0)
	}
	for _, care := range card.Cautions {
		if care.Key == "ladder" && card.Place != task.Home {
			add("ladder", 0)
		}
	}
	return list
}

// hands is how many people go to a place; with a minute, how many of them are there then.
func (c *Forecast) hands(place crew.Place, at ...int) int {
	n := 0
	for i := range c.job.People {
		p := &c.job.People[i]
		goes := len(p.Only) == 0
		for _, only := range p.Only {
			goes = goes || only == place
		}
		here := len(p.Free) == 0 || len(at) == 0
		for _, f := range p.Free {
			here = here || f.From <= at[0] && at[0] < f.To
		}
		if goes && here {
			n++
		}
	}
	return n
}

// settle answers what needs no plan: all is done, the event is over, or too few people.
func (c *Forecast) settle(p *plan.Plan) {
	left := false
	for i := range c.job.Tasks {
		left = left || c.job.Tasks[i].Place != crew.TakeDown
	}
	switch {
	case !left:
		c.Verdict, c.Odds, c.Musts, c.Half, c.Ninety, c.Finish = "done", 1, 1, c.Now, c.Now, c.Now
		c.Sentence = "All is done; doors " + c.clock(c.Doors) + "."
		return
	case c.Now >= c.Doors+longPast:
		c.Verdict, c.Sentence = "past", c.past()+"not ticked."
		return
	}
	if len(c.job.Tasks) > 2000 || len(c.job.People) > 60 { // what package crew takes
		c.miss(
			"The clock plans up to 2,000 cards and 60 people, and this job has more. Its cards and counts hold all the same.",
		)
		return
	}
	for i := range c.job.Tasks {
		t := &c.job.Tasks[i]
		if hands := c.hands(t.Place); hands < t.Least {
			title := t.Key
			for k := range p.Cards {
				if p.Cards[k].Key == t.Key {
					title = p.Cards[k].Title
				}
			}
			c.miss(
				"“" + title + "” needs " + phrase.Count(t.Least, "person", "people") + " at once; the crew has " + strconv.Itoa(
					hands,
				) + " " + placeWords[t.Place] + ".",
			)
			return
		}
	}
}

// longPast is how many minutes after the doors nobody asks any more when the rest will be done. From memory, no source.
const longPast = 6 * 60

// past begins the sentence of a clock after the doors.
func (c *Forecast) past() string {
	return "The doors have been open since " + c.clock(c.Doors) + "; " + phrase.Count(c.open(), "card") + " "
}

var placeWords = [...]string{"at home", "for loading", "on site", "for the take-down"}

// open is how many cards are left before the doors.
func (c *Forecast) open() int {
	n := 0
	for i := range c.job.Tasks {
		if c.job.Tasks[i].Place != crew.TakeDown {
			n++
		}
	}
	return n
}
