package forecast

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// cures lists the changes that let somebody do the cards that nobody can do: more people at the place, one pair of
// hands and more time, or the venue instead of home.
func (l *mitigationList) cures() {
	for i := range l.c.Blocked {
		b := &l.c.Blocked[i]
		if b.follows || b.Place == task.TakeDown {
			continue
		}
		switch b.Place {
		case task.Home, task.Load:
			l.helpAtHome(b)
		case task.Site:
			l.comesToVenue(b)
		}
		l.alone(b)
		l.insteadOfHome(b)
	}
	l.allAlone()
}

// allAlone leaves all cards that nobody can do to one pair of hands, if there are several.
func (l *mitigationList) allAlone() {
	all := &Mitigation{Key: "allalone", matter: "allalone"}
	for _, one := range l.list {
		if mitigationKind(one.Key) == "alone" {
			all.Changes = append(all.Changes, one.Changes...)
			all.Minutes += one.Minutes
		}
	}
	if len(all.Changes) < 2 {
		return
	}
	all.Title = "Do both with one pair of hands"
	if n := len(all.Changes); n > 2 {
		all.Title = "Do all " + strconv.Itoa(n) + " with one pair of hands"
	}
	all.Cost = aloneCost(all.Minutes)
	l.cure(all)
}

// aloneCost says what it costs to do cards alone.
func aloneCost(minutes float64) string {
	return phrase.Count(int(minutes+0.5), "minute", "minutes") +
		" more work; not above head height, on a ladder or in wind: a second pair is safer"
}

// cure adds a cure unless it is listed already.
func (l *mitigationList) cure(option *Mitigation) {
	if !l.marked(option) {
		l.add(option, 0)
	}
}

// marked marks a mitigation as a cure. It reports whether the list has it already, for another card or as one that
// saves time.
func (l *mitigationList) marked(option *Mitigation) bool {
	option.cure = true
	for i := range l.list {
		if l.list[i].Key == option.Key {
			l.list[i].cure = true
			return true
		}
	}
	return false
}

// helpAtHome has somebody of the crew, or else a new helper, help at home. The new one does not come to the venue.
func (l *mitigationList) helpAtHome(b *Blocked) {
	long := l.plan.Figure("clock/evening-minutes")
	cost := measure.FormatMinutes(long) + " at home"
	found := 0
	for i := range l.job.Crew {
		if m := &l.job.Crew[i]; !m.Home {
			found++
			l.cure(&Mitigation{Key: "athome/" + m.ID, Title: m.Name + " helps at home too", Cost: cost, Minutes: long,
				Changes: []job.Change{job.Put("member/"+m.ID, "home", true)}, matter: "athome/" + m.ID})
		}
	}
	if found > 0 || b.Least-b.Most > 1 || l.c.Now >= theDay {
		return
	}
	entity := "member/" + freeID(l.job, "member", "home-hands")
	option := &Mitigation{Key: "homehands", Title: "Somebody helps at home", Cost: cost, Minutes: long,
		Changes: []job.Change{job.Put(entity, "name", "Help at home"),
			job.Put(entity, "skill", string(figures.Beginner)), job.Put(entity, "home", true),
			job.Put(entity, "to", string(l.c.At(theDay))), job.Put(entity, "order", l.lastOrder()+1)}}
	option.Changes = append(option.Changes, l.owner()...)
	l.cure(option)
}

// comesToVenue has the missing people come to the venue for the whole time there.
func (l *mitigationList) comesToVenue(b *Blocked) {
	from, people := max(l.c.In, l.c.Now), b.Least-b.Most
	if from >= l.c.Doors || people > mostMore {
		return
	}
	if option := l.more(from, people); !l.marked(option) {
		l.helper(option, from, people)
	}
}

// alone leaves a card to one pair of hands, which takes longer.
func (l *mitigationList) alone(b *Blocked) {
	if b.Most < 1 || b.Least < 2 {
		return
	}
	minutes := l.minutesOf(b.Key) * (l.plan.Figure("hands/alone") - 1)
	l.cure(&Mitigation{Key: "alone/" + b.Key, Title: "Do “" + b.Title + "” with one pair of hands", Minutes: minutes,
		Cost:    aloneCost(minutes),
		Changes: []job.Change{job.Put("choice/"+task.AloneKey(b.Key), "pick", task.PickAlone)},
		matter:  "alone/" + b.Key})
}

// insteadOfHome makes the piece of a card at the venue.
func (l *mitigationList) insteadOfHome(b *Blocked) {
	piece, there := l.job.Piece(b.Piece)
	if b.Place != task.Home || !there || piece.Built == "site" || l.c.Now >= l.c.In {
		return
	}
	l.cure(&Mitigation{Key: "venue/" + piece.ID, Title: "Make " + piece.Name + " at the venue",
		Cost:    measure.FormatMinutes(l.minutesOf(b.Key)) + " of work moves from home to the venue",
		Changes: []job.Change{job.Put("piece/"+piece.ID, "built", "site")}, Minutes: l.minutesOf(b.Key),
		piece: piece.Name, matter: "piece/" + piece.ID})
}

// minutesOf returns the minutes of the hands on a card.
func (l *mitigationList) minutesOf(key string) float64 {
	for i := range l.plan.Cards {
		if l.plan.Cards[i].Key == key {
			return l.plan.Cards[i].Minutes
		}
	}
	return 0
}
