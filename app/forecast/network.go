package forecast

import (
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
	daysAhead   = 8               // from the origin to the day of the job
	faraway     = 40 * dayMinutes // a window that stays open
	clockStep   = 5               // minutes; the forecast's time is a multiple of it
	leastShared = 5               // the least count that people share. From memory, no source
)

// spreadOf returns how far the time of a card varies: the standard deviation of its logarithm.
func spreadOf(p *plan.Plan, kind string, s figures.Skill) float64 {
	k := figures.KindOfWork{Name: kind}
	key := k.StrayKey(s)
	if kind == "" {
		key = "clock/spread"
	}
	return p.Figure(key) / 100
}

// miss adds something that has to be filled in before there can be a forecast.
func (f *Forecast) miss(what string) {
	f.Missing = append(f.Missing, what)
	f.Sentence = f.Missing[0]
}

// set builds the job for package crew from the work that is left. If there is nothing to plan, it says why.
func (f *Forecast) set(j *job.Job, p *plan.Plan, now int64) {
	in, known := j.Brief.In.Time()
	doors, known2 := j.Brief.Doors.Time()
	if !known {
		f.miss("Set when you get access to see whether you will be done in time.")
	}
	if !known2 {
		f.miss("Set when the doors open to see whether you will be done in time.")
	}
	open := false
	for i := range p.Cards {
		open = open || !p.Cards[i].Gone
	}
	if !open {
		f.miss("Nothing to do yet. Add a piece, and its cards appear on the clock.")
	}
	if len(f.Missing) > 0 {
		return
	}
	inDay := time.Date(in.Year(), in.Month(), in.Day(), 0, 0, 0, 0, time.UTC)
	f.Origin = inDay.AddDate(0, 0, -daysAhead).Unix() / 60
	f.In, f.Doors = int(in.Unix()/60-f.Origin), int(doors.Unix()/60-f.Origin)
	if f.Doors <= f.In || f.Doors > f.In+15*dayMinutes {
		f.miss("The doors must open after you get access.")
		return
	}
	f.Now = int(min(max(now-f.Origin, 0), faraway))
	f.windows(j, p)
	f.crew(j)
	f.things(j, p)
	f.cars(p)
	if len(f.job.Windows[crew.Home]) > 0 && f.Now < f.job.Windows[crew.Home][0].From {
		f.Now = 0
	}
	f.Now -= f.Now % clockStep
	f.progress = f.cards(j, p)
	f.whole = f.job.Tasks
	f.job = crew.Left(f.job, f.Now, f.progress)
	f.freshen()
	f.settle(p)
}

// things adds pumps and ladders, as many as the kit has, at least one; the valve of a cylinder; and the doorway.
func (f *Forecast) things(j *job.Job, p *plan.Plan) {
	for _, kind := range [...]string{"pump", "ladder", "cylinder", "doorway"} {
		count := 0
		for i := range j.Kit {
			if j.Kit[i].Kind == kind {
				count += j.Kit[i].Count
			}
		}
		f.job.Things = append(f.job.Things, crew.Thing{Key: kind, Count: max(1, count)})
	}
	f.job.Rates = kindRates(p)
}

// kindRates returns the rate of each kind of work before anything is measured: the table's, with the table's spread.
func kindRates(p *plan.Plan) (rates []crew.Rate) {
	spread := p.Figure("clock/spread-kind") / 100
	for _, kind := range figures.KindsOfWork() {
		rates = append(rates, crew.Rate{Kind: kind, Factor: 1, Spread: spread})
	}
	return rates
}

var placeOf = map[task.Place]crew.Place{task.Home: crew.Home, task.Load: crew.Load, task.Site: crew.Site,
	task.TakeDown: crew.TakeDown}

var priorityOf = map[string]crew.Priority{"should": crew.Should, "could": crew.Could}

// cards adds a task for each card, done ones too: rates are learnt from them. It returns the progress of each.
func (f *Forecast) cards(j *job.Job, p *plan.Plan) []crew.Progress {
	narrow := task.NarrowDoor(&j.Brief, p.Figure("hands/doorway"))
	down := 0 // hands for the take-down; without its time or anybody there it is left out
	if w := f.job.Windows[crew.TakeDown]; len(w) > 0 {
		down = f.hands(crew.TakeDown, w[0].From)
	}
	crowding, serves := p.Figure("clock/crowding")/100, int(p.Figure("clock/pump-hands"))
	spreads := map[string][2]float64{} // of practised hands and of beginners, by kind of work
	progress := make([]crew.Progress, 0, len(p.Cards))
	timed := f.timedWork(j, p)
	arrived := false // somebody works on site already
	for i := range p.Cards {
		arrived = arrived || p.Cards[i].Place == task.Site && (p.Cards[i].Done || p.Cards[i].Made > 0)
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
		spread, known := spreads[t.Kind]
		if !known {
			spread = [2]float64{spreadOf(p, t.Kind, figures.Practised), spreadOf(p, t.Kind, figures.Beginner)}
			spreads[t.Kind] = spread
		}
		t.Spread, t.Unsteady = spread[0], spread[1]
		if fast > 0 {
			t.Beginner = min(100, max(1, slow/fast))
		}
		if who := f.Number(card.TakenBy); who >= 0 && !card.Done {
			t.Taken = []string{f.People[who].Key}
		}
		t.By = card.By
		t.Needs = f.needs(card, &t, &piece, serves, narrow)
		if card.Key == task.FamilyLoad.Only().Key() { // load only after everything is made
			for k := range p.Cards {
				if p.Cards[k].Place == task.Home {
					t.Before = append(t.Before[:len(t.Before):len(t.Before)], p.Cards[k].Key)
				}
			}
		}
		f.job.Tasks = append(f.job.Tasks, t)
		done := crew.Progress{Task: card.Key, Done: card.Done}
		if card.Count > 0 {
			done.Share = min(1, float64(card.Made)/float64(card.Count))
		}
		f.addObserved(j, p, card, timed[card.Key], &done)
		if arrived {
			done.Ended = 0
		}
		progress = append(progress, done)
	}
	return progress
}

// needs lists what a card occupies: a pump for so many hands or the cylinder, a ladder, the car, a narrow doorway.
func (f *Forecast) needs(card *task.Card, t *crew.Task, piece *job.Piece, serves int, narrow bool) (list []crew.Need) {
	add := func(thing string, serves int) { list = append(list, crew.Need{Thing: thing, Serves: serves}) }
	switch {
	case t.Kind == "fill" && piece.Gas == "helium":
		add("cylinder", serves)
	case t.Kind == "fill":
		add("pump", serves)
	}
	for _, id := range card.Cars {
		add(carThing(id), 0)
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

// hands counts the people who go to a place. With a minute, it counts those who are there then.
func (f *Forecast) hands(place crew.Place, at ...int) int {
	n := 0
	for i := range f.job.People {
		p := &f.job.People[i]
		goes := len(p.Only) == 0
		for _, only := range p.Only {
			goes = goes || only == place
		}
		here := len(p.Free) == 0 || len(at) == 0
		for _, free := range p.Free {
			here = here || free.From <= at[0] && at[0] < free.To
		}
		if goes && here {
			n++
		}
	}
	return n
}

// settle answers where no plan is needed or possible: all is done, the event is over, or there are too few people.
func (f *Forecast) settle(p *plan.Plan) {
	left := false
	for i := range f.job.Tasks {
		left = left || f.job.Tasks[i].Place != crew.TakeDown
	}
	switch {
	case !left:
		f.Verdict, f.Odds, f.Musts, f.Half, f.Ninety, f.Finish = "done", 1, 1, f.Now, f.Now, f.Now
		f.Sentence = "All done; doors " + f.clock(f.Doors) + "."
		return
	case f.Now >= f.Doors+longPast:
		f.Verdict, f.Sentence = "past", f.past()+"not ticked."
		return
	}
	if len(f.job.Tasks) > 2000 || len(f.job.People) > 60 { // what package crew takes
		f.miss("The clock plans up to 2,000 cards and 60 people. This job has more; its cards and counts still work.")
		return
	}
	f.block(p)
	if f.open() == 0 {
		f.miss(f.Without())
	}
}

// longPast is how many minutes after the doors the forecast stops planning. From memory, no source.
const longPast = 6 * 60

// past begins the sentence after the doors.
func (f *Forecast) past() string {
	return "The doors have been open since " + f.clock(f.Doors) + "; " + phrase.Count(f.open(), "card") + " "
}

// open counts the cards left before the doors.
func (f *Forecast) open() int {
	n := 0
	for i := range f.job.Tasks {
		if f.job.Tasks[i].Place != crew.TakeDown {
			n++
		}
	}
	return n
}
