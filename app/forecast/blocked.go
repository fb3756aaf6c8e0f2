package forecast

import (
	"slices"
	"strconv"

	"garlandry/app/plan"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

// Blocked is a card that nobody can do, since it needs more hands at once than there are.
type Blocked struct {
	Key, Title, Piece string
	Place             task.Place
	Least             int  // people it needs at once
	Most              int  // people who are there at once
	Must              bool // whether it is a must-have
	follows           bool // it makes no sense without a card that is blocked, and has people
}

// block takes the cards that nobody can do out of the job, with those that make no sense without them. The forecast is
// about the others.
func (f *Forecast) block(p *plan.Plan) {
	f.Blocked = nil
	gone := map[string]bool{}
	for i := range f.job.Tasks {
		t := &f.job.Tasks[i]
		if most := f.most(t); most < max(1, t.Least) {
			f.addBlocked(p, t, most, false)
			gone[t.Key] = true
		}
	}
	if len(gone) == 0 {
		return
	}
	for more := true; more; {
		more = false
		for i := range f.job.Tasks {
			if t := &f.job.Tasks[i]; !gone[t.Key] && f.pointless(t, gone) {
				f.addBlocked(p, t, t.Least, true)
				gone[t.Key], more = true, true
			}
		}
	}
	f.job = crew.LeaveOut(func(t crew.Task) bool { return gone[t.Key] })(f.job)
}

// addBlocked lists a card that nobody can do.
func (f *Forecast) addBlocked(p *plan.Plan, t *crew.Task, most int, follows bool) {
	b := Blocked{Key: t.Key, Title: t.Key, Piece: t.Piece, Least: t.Least, Most: most, Must: t.Priority == crew.Must,
		follows: follows}
	for k := range p.Cards {
		if card := &p.Cards[k]; card.Key == t.Key {
			b.Title, b.Place = card.Title, card.Place
		}
	}
	f.Blocked = append(f.Blocked, b)
}

// pointless reports whether a task makes no sense without one that is gone: it is about the same thing, hangs on a
// frame that is not up, comes with a load that nobody can fetch, or sprays what does not hang. Cards of the whole job,
// such as loading or the last look, go on without it.
func (f *Forecast) pointless(t *crew.Task, gone map[string]bool) bool {
	ref := task.RefTo(t.Key)
	switch ref.Family {
	case task.FamilyDown:
		return gone[task.FamilyFix.Of(ref.ID).Key()]
	case task.FamilyStrike:
		return gone[task.FamilyFrame.Of(ref.ID).Key()]
	case task.FamilyShine:
		return f.followsAll(t.Key, gone)
	case task.FamilyCover, task.FamilyFix, task.FamilyGrow, task.FamilyDress, task.FamilySign, task.FamilyJoin,
		task.FamilyCarry, task.FamilyTrip:
	default:
		return false
	}
	for _, key := range t.Before {
		switch before := task.RefTo(key); before.Family {
		case task.FamilyFrame, task.FamilyMake, task.FamilyLayer, task.FamilyAccents, task.FamilyJoin, task.FamilyFix,
			task.FamilyCarry, task.FamilyTrip:
			if gone[key] {
				return true
			}
		}
	}
	return false
}

// followsAll reports whether all cards of the job that a card waits for are gone, and there are any.
func (f *Forecast) followsAll(key string, gone map[string]bool) bool {
	var before []string
	for i := range f.whole {
		if f.whole[i].Key == key {
			before = f.whole[i].Before
		}
	}
	found := false
	for i := range f.whole {
		if first := f.whole[i].Key; slices.Contains(before, first) {
			if !gone[first] {
				return false
			}
			found = true
		}
	}
	return found
}

// most returns how many people who may do a task are at its place at once, before the doors if it is on site.
func (f *Forecast) most(t *crew.Task) (most int) {
	windows := f.job.Windows[t.Place]
	if len(windows) == 0 {
		windows = []crew.Interval{{From: 0, To: faraway}}
	}
	var moments []int
	for _, open := range windows {
		moments = append(moments, max(open.From, f.Now))
	}
	for i := range f.job.People {
		for _, free := range f.job.People[i].Free {
			moments = append(moments, max(free.From, f.Now))
		}
	}
	for _, at := range moments {
		if t.Place != crew.TakeDown && at >= max(f.Doors, f.Now+1) || !within(windows, at) {
			continue
		}
		hands := 0
		for i := range f.job.People {
			p := &f.job.People[i]
			if (len(t.By) == 0 || slices.Contains(t.By, p.Key)) &&
				(len(p.Only) == 0 || slices.Contains(p.Only, t.Place)) && (len(p.Free) == 0 || within(p.Free, at)) {
				hands++
			}
		}
		most = max(most, hands)
	}
	return most
}

// within reports whether a minute is in one of the times.
func within(times []crew.Interval, at int) bool {
	for _, open := range times {
		if open.From <= at && at < open.To {
			return true
		}
	}
	return false
}

// Without says which cards the forecast leaves out: one with the reason, or how many. It is empty if none is left out.
func (f *Forecast) Without() string {
	var b *Blocked
	for i := range f.Blocked {
		if one := &f.Blocked[i]; !one.follows && b == nil {
			b = one
		}
	}
	switch {
	case b == nil:
		return ""
	case len(f.Blocked) > 1:
		return strconv.Itoa(len(f.Blocked)) + " cards need more hands than you have."
	}
	return "Nobody can do “" + b.Title + "”: it " + b.Why() + "."
}

// Why says what keeps people from a card: too few hands, or a card before it that nobody can do.
func (b *Blocked) Why() string {
	if b.follows {
		return "waits for a card that nobody can do"
	}
	there := "nobody is there"
	switch {
	case b.Most == 1:
		there = "1 is there"
	case b.Most > 1:
		there = strconv.Itoa(b.Most) + " are there"
	}
	return "needs " + phrase.Count(max(1, b.Least), "person", "people") + " at once; " + there
}

// MustBlocked reports whether a must-have is among the cards that nobody can do.
func (f *Forecast) MustBlocked() bool {
	for i := range f.Blocked {
		if f.Blocked[i].Must && f.Blocked[i].Place != task.TakeDown {
			return true
		}
	}
	return false
}
