package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
	"garlandry/calc/measure"
)

// trips reports whether a task is another trip of the car.
func trips(t *crew.Task) bool { return task.RefTo(t.Key).Family == task.FamilyTrip }

// car adds another car if the car has to go twice.
func (l *mitigationList) car() {
	if l.minutes(trips) == 0 {
		return
	}
	hire := l.plan.Figure("clock/hire")
	option := &Mitigation{Key: "car", Title: "Borrow or hire another car", Money: hire,
		Cost: "ask somebody, or hire for about " + measure.FormatNumber(hire, 0) + " in money, and a second driver"}
	for i := range l.job.Kit {
		if kit := &l.job.Kit[i]; kit.Kind == "car" && kit.Count > 0 && kit.Litres > 0 && option.Changes == nil {
			option.Changes = []job.Change{job.Put("kit/"+kit.ID, "count", kit.Count+1)}
		}
	}
	if option.Changes == nil { // without a car in the kit, a usual one is there
		entity := "kit/" + freeID(l.job, "kit", "borrowed-car")
		option.Changes = []job.Change{job.Put(entity, "kind", "car"), job.Put(entity, "name", "Borrowed car"),
			job.Put(entity, "count", 2), job.Put(entity, "litres", l.plan.Figure("car/litres"))}
	}
	l.add(option, 0)
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
