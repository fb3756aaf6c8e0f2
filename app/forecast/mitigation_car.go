package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
	"garlandry/calc/crew"
	"garlandry/calc/measure"
)

// trips reports whether a task is another trip of the car.
func trips(t *crew.Task) bool { return task.RefTo(t.Key).Family == task.FamilyTrip }

// car adds another car if a car has to go twice, and somebody who drives it.
func (l *mitigationList) car() {
	if l.minutes(trips) == 0 {
		return
	}
	hire := l.plan.Figure("clock/hire")
	option := &Mitigation{Key: "car", Title: "Borrow or hire another car", Money: hire,
		Cost: "ask somebody, or hire for about " + measure.FormatNumber(hire, 0) + " in money, and a second driver"}
	known := false
	for i := range l.job.Kit {
		kit := &l.job.Kit[i]
		known = known || kit.Kind == "car" && kit.Count > 0
		if kit.Kind == "car" && kit.Count > 0 && kit.Litres > 0 && kit.Driver == "" && option.Changes == nil {
			option.Changes = []job.Change{job.Put("kit/"+kit.ID, "count", kit.Count+1)}
		}
	}
	if option.Changes == nil { // without a car in the kit, a usual one is there
		entity, count := "kit/"+freeID(l.job, "kit", "borrowed-car"), 2
		if known {
			count = 1
		}
		option.Changes = []job.Change{job.Put(entity, "kind", "car"), job.Put(entity, "name", "Borrowed car"),
			job.Put(entity, "count", count), job.Put(entity, "litres", l.plan.Figure("car/litres"))}
	}
	if m := l.passenger(); m != nil && transport.Marked(l.job) {
		option.Changes = append(option.Changes, job.Put("member/"+m.ID, "drives", true))
		option.Cost += ", such as " + m.Name + " if allowed to drive it"
	}
	l.add(option, 0)
}

// passenger returns the first of the crew who does not drive yet; nil if there is none.
func (l *mitigationList) passenger() *job.Member {
	for i := range l.job.Crew {
		m := &l.job.Crew[i]
		named := false
		for k := range l.job.Kit {
			named = named || l.job.Kit[k].Kind == "car" && l.job.Kit[k].Driver == m.ID
		}
		if !m.Drives && !named {
			return m
		}
	}
	return nil
}

// drivers lets somebody drive who does not yet, where nobody on site may fetch a load.
func (l *mitigationList) drivers() {
	stuck := false
	for i := range l.plan.Cards {
		card := &l.plan.Cards[i]
		t := crew.Task{By: card.By, Place: crew.Site}
		stuck = stuck || task.RefTo(card.Key).Family == task.FamilyTrip && !card.Done && !card.Gone && l.c.most(&t) == 0
	}
	for i := range l.job.Crew {
		if m := &l.job.Crew[i]; stuck && !m.Drives {
			l.cure(&Mitigation{Key: "drives/" + m.ID, Title: m.Name + " drives",
				Cost:    "only with a licence and insurance",
				Changes: []job.Change{job.Put("member/"+m.ID, "drives", true)}, matter: "drives"})
		}
	}
}

// atVenue makes a piece at the venue, to save trips.
func (l *mitigationList) atVenue(piece *job.Piece) {
	if piece.Built == "site" || l.c.Now >= l.c.In || l.minutes(trips) == 0 {
		return
	}
	option := &Mitigation{Key: "site/" + piece.ID, Title: "Make " + piece.Name + " at the venue", piece: piece.Name,
		matter: "piece/" + piece.ID, Changes: []job.Change{job.Put("piece/"+piece.ID, "built", "site")}}
	option.Minutes = l.minutes(func(t *crew.Task) bool { return t.Piece == piece.ID && t.Place == crew.Home })
	if option.Minutes == 0 {
		return
	}
	option.Cost = measure.FormatMinutes(option.Minutes) +
		" of work moves from home to the venue; the car has more room"
	option.promise = l.promise(trips)
	l.add(option, 0)
}

// bring has what is made of a piece at home brought, however many loads it takes.
func bring(piece string) job.Change {
	return job.Put("choice/"+transport.BringKey(piece), "pick", transport.PickBrought)
}
