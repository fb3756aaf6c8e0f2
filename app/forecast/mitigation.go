package forecast

import (
	"strconv"
	"strings"

	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"

	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/crew"
	"garlandry/calc/measure"
)

// Mitigation is one change that would help the crew to be done in time.
type Mitigation struct {
	Key     string
	Title   string
	Cost    string // what it costs, in words
	Changes []job.Change
	Minutes float64 // of people's own time that it costs
	Money   float64 // in whatever the job is paid in
	Look    float64 // loss in look, in minutes of trouble; 0: nobody sees it
	piece   string  // that it is about
	home    bool    // it moves work home, if the car takes it
	cure    bool    // it lets somebody do a card that nobody can do
	matter  string  // only one mitigation of a matter can be used
	promise float64 // minutes of its work on the critical path
	price   float64 // the whole cost in one number
}

// The cost of changes in minutes of trouble, to compare them. From memory, no source.
const (
	troubleEach   = 5    // for any change, since somebody has to see to it
	troubleMinute = 0.25 // for a minute of people's time, given or paid
	troubleAsk    = 1.5  // for a minute that the venue opens sooner
	lookThin      = 25
	lookPlain     = 50
	lookOut       = 120
)

// mitigations lists the changes that make sense for a job.
func (f *Forecast) mitigations(j *job.Job, p *plan.Plan) *mitigationList {
	l := &mitigationList{c: f, job: j, plan: p, hour: p.Figure("clock/helper-hour")}
	for i := range j.Pieces {
		l.ofPiece(&j.Pieces[i])
		l.atVenue(&j.Pieces[i])
	}
	l.kit()
	l.car()
	l.drivers()
	if left := f.Doors - max(f.In, f.Now); left > 0 {
		l.hands(left)
	}
	if f.Now < f.In {
		l.sooner()
	}
	l.cures()
	return l
}

// find returns a mitigation by its key, for any number of clusters; nil if it no longer makes sense.
func (l *mitigationList) find(key string) *Mitigation {
	for i := range l.list {
		if l.list[i].Key == key {
			return l.list[i]
		}
	}
	for i := range l.job.Pieces {
		if strings.HasPrefix(key, "ahead/"+l.job.Pieces[i].ID+"/") {
			if option := l.ahead(&l.job.Pieces[i], numberAhead(key)); option != nil && option.Key == key {
				return option
			}
		}
	}
	return nil
}

// mitigationList gathers mitigations.
type mitigationList struct {
	c    *Forecast
	job  *job.Job
	plan *plan.Plan
	hour float64 // what a helper's hour costs
	list []*Mitigation
}

// add adds an option, with trouble beside what it costs in time, money and look.
func (l *mitigationList) add(option *Mitigation, trouble float64) {
	option.price = troubleEach + trouble + option.Look + float64(troubleMinute*option.Minutes)
	if l.hour > 0 {
		option.price += troubleMinute * 60 * option.Money / l.hour
	}
	if option.matter == "" {
		option.matter = mitigationKind(option.Key)
	}
	l.list = append(l.list, option)
}

// minutes returns the work of the tasks that match.
func (l *mitigationList) minutes(match func(t *crew.Task) bool) (sum float64) {
	for i := range l.c.job.Tasks {
		if t := &l.c.job.Tasks[i]; match(t) {
			sum += t.Minutes
		}
	}
	return sum
}

// promise returns the minutes of matching tasks, weighted by how often they are on the critical path.
func (l *mitigationList) promise(match func(t *crew.Task) bool) (sum float64) {
	for i := range l.c.Tasks {
		for k := range l.c.job.Tasks {
			if t := &l.c.job.Tasks[k]; t.Key == l.c.Tasks[i].Key && match(t) {
				sum += float64(t.Minutes * l.c.Tasks[i].Critical)
			}
		}
	}
	return sum
}

// homeLate reports whether work at home runs into the day itself.
func (f *Forecast) homeLate() bool {
	for i := range f.Tasks {
		if f.Tasks[i].Place == task.Home && f.Tasks[i].End > daysAhead*dayMinutes {
			return true
		}
	}
	return false
}

// atHomeWords ends the cost of work that moves home.
const atHomeWords = " more at home, and it must fit into the car"

// manyAhead is more than any piece is made of.
const manyAhead = 1 << 30

// numberAhead returns the number of clusters in the key of an option of [mitigationList.ahead].
func numberAhead(key string) int {
	n, _ := strconv.Atoi(key[strings.LastIndexByte(key, '/')+1:])
	return n
}

// ofPiece adds the changes to one piece: make it or some clusters at home, thin the accents, use a plainer recipe, or
// leave it out.
func (l *mitigationList) ofPiece(piece *job.Piece) {
	id, name, entity := piece.ID, piece.Name, "piece/"+piece.ID
	of := func(families ...task.Family) func(*crew.Task) bool {
		return func(t *crew.Task) bool {
			for _, family := range families {
				if t.Key == family.Of(id).Key() {
					return true
				}
			}
			return families == nil && t.Piece == id && t.Place != crew.TakeDown
		}
	}
	add := func(option *Mitigation, match func(*crew.Task) bool) {
		option.piece, option.matter, option.promise = name, entity, l.promise(match)
		l.add(option, 0)
	}
	here := func(t *crew.Task) bool {
		return t.Place == crew.Site && (of(task.FamilyMake, task.FamilyJoin, task.FamilyAccents)(t) || l.along(t, id))
	}
	if moved := l.minutes(here); piece.Built == "site" && piece.Gas != "helium" && moved > 0 && l.c.Now < l.c.In {
		add(&Mitigation{Key: "home/" + id, Title: "Make " + name + " at home",
			Cost:    measure.FormatMinutes(moved) + atHomeWords,
			Changes: []job.Change{job.Put(entity, "built", "home"), bring(id)}, Minutes: moved, home: true}, here)
	}
	if whole := l.ahead(piece, manyAhead); whole != nil {
		add(whole, of(task.FamilyMake))
		if half := l.ahead(piece, numberAhead(whole.Key)/2); half != nil {
			add(half, of(task.FamilyMake))
		}
	}
	for i := range l.plan.Pieces {
		if count := l.plan.Pieces[i].Accents; l.plan.Pieces[i].Piece.ID == id && count >= 4 &&
			l.minutes(of(task.FamilyAccents, task.FamilyDress)) > 0 {
			add(&Mitigation{Key: "thin/" + id, Title: "Half the accents on " + name, Cost: "it looks plainer",
				Changes: []job.Change{job.Put(entity, "accents", count/2)}, Look: lookThin},
				of(task.FamilyAccents, task.FamilyDress))
		}
	}
	for _, layer := range l.job.LayersOf(id) {
		its := func(t *crew.Task) bool {
			return t.Key == task.FamilyLayer.Of(layer.ID).Key() || t.Key == task.FamilyGrow.Of(layer.ID).Key()
		}
		if l.minutes(its) > 0 {
			add(&Mitigation{Key: "flat/" + layer.ID, Title: "Leave out a layer of " + name + ": " + layer.Called(),
				Cost: "it looks thinner", Changes: []job.Change{job.Put("layer/"+layer.ID, "removed", true)}, Look: lookThin}, its)
		}
	}
	if plain, simpler := plainer(piece.Recipe); simpler && l.minutes(of(task.FamilyMake)) > 0 {
		add(&Mitigation{Key: "plain/" + id, Title: "Only one size in " + name + ": " + plain, Cost: "it looks more even",
			Changes: []job.Change{job.Put(entity, "recipe", plain)}, Look: lookPlain}, of(task.FamilyMake))
	}
	if piece.Priority == "could" && l.minutes(of()) > 0 {
		add(&Mitigation{Key: "out/" + id, Title: "Leave out " + name, Cost: "it will be missed",
			Changes: []job.Change{job.Put(entity, "removed", true)}, Look: lookOut}, of())
	}
}

// along reports whether a task makes a layer that is made wherever its piece is.
func (l *mitigationList) along(t *crew.Task, piece string) bool {
	for _, layer := range l.job.LayersOf(piece) {
		if t.Key == task.FamilyLayer.Of(layer.ID).Key() {
			return layer.Built == "piece"
		}
	}
	return false
}

// ahead makes n clusters of a piece built on site at home, at most as many as are left; nil if that makes no sense.
func (l *mitigationList) ahead(piece *job.Piece, n int) *Mitigation {
	for i := range l.plan.Cards {
		card := &l.plan.Cards[i]
		if card.Key != task.FamilyMake.Of(piece.ID).Key() || card.Place != task.Site ||
			piece.Gas == "helium" || l.c.Now >= l.c.In {
			continue
		}
		left := card.Count - card.Made
		if n = min(n, left); n < 1 {
			continue
		}
		minutes := float64(n) / float64(left) * l.minutes(func(t *crew.Task) bool { return t.Key == card.Key })
		words := strconv.Itoa(n) + " of the "
		if n == card.Count {
			words = "all "
		}
		return &Mitigation{Key: "ahead/" + piece.ID + "/" + strconv.Itoa(n),
			Title:   "Make " + words + phrase.Count(card.Count, card.Unit, card.Unit) + " for " + piece.Name + " at home",
			Cost:    measure.FormatMinutes(minutes) + atHomeWords,
			Changes: []job.Change{job.Put("piece/"+piece.ID, "ahead", piece.Ahead+n)}, Minutes: minutes, home: true,
			piece: piece.Name, matter: "piece/" + piece.ID, price: troubleEach + float64(troubleMinute*minutes)}
	}
	return nil
}

// plainer returns a recipe of as many duplets in its smallest size; false if it has one size already.
func plainer(r cluster.Recipe) (string, bool) {
	if len(r) < 2 {
		return "", false
	}
	one := cluster.Recipe{r[0]}
	one[0].Duplets = r.Duplets()
	return one.String(), one.Check() == nil
}

// kit adds a second pump or ladder if more than one task needs it.
func (l *mitigationList) kit() {
	hire := l.plan.Figure("clock/hire")
	for i := range l.c.job.Things {
		thing := &l.c.job.Things[i]
		if thing.Key != "pump" && thing.Key != "ladder" {
			continue
		}
		wanted := 0
		for k := range l.c.job.Tasks {
			for _, need := range l.c.job.Tasks[k].Needs {
				if need.Thing == thing.Key {
					wanted++
				}
			}
		}
		if wanted < 2 || thing.Count >= len(l.c.job.People) {
			continue
		}
		option := &Mitigation{Key: thing.Key, Title: "Borrow or hire another " + thing.Key,
			Cost: "ask somebody, or hire for about " + measure.FormatNumber(hire, 0) + " in money", Money: hire}
		for k := range l.job.Kit {
			if kit := &l.job.Kit[k]; kit.Kind == thing.Key && kit.Count > 0 && option.Changes == nil {
				option.Changes = []job.Change{job.Put("kit/"+kit.ID, "count", kit.Count+1)}
			}
		}
		if option.Changes == nil {
			entity := "kit/" + freeID(l.job, "kit", "borrowed-"+thing.Key)
			option.Changes = []job.Change{job.Put(entity, "kind", thing.Key), job.Put(entity, "name", "Borrowed "+thing.Key),
				job.Put(entity, "count", 2)}
		}
		l.add(option, 0)
	}
}

// helper adds an option that costs people's time from a minute until the doors.
func (l *mitigationList) helper(option *Mitigation, from, people int) {
	long := float64(l.c.Doors-from) * float64(people)
	option.Cost = measure.FormatMinutes(long) + " of somebody's time"
	if option.Money = float64(long*l.hour) / 60; option.Money > 0 {
		option.Cost += ", about " + measure.FormatNumber(option.Money, 0) + " in money"
	} else {
		option.Minutes = long
	}
	l.add(option, 0)
}

// hands adds beginners until the end of the job, or practised hands instead of a beginner. Left is in minutes.
func (l *mitigationList) hands(left int) {
	now := max(l.c.In, l.c.Now)
	last := now - 1
	for _, late := range [...]int{0, left / 3, left / 2, -1} {
		from, people := now, 1
		if late > 0 {
			from += late - (now+late)%30
		}
		if late >= 0 && from <= last {
			continue
		}
		last = from
		if late < 0 {
			people = mostMore
		}
		l.helper(l.more(from, people), from, people)
	}
	for i := range l.job.Crew {
		if m := &l.job.Crew[i]; m.Skill != string(figures.Practised) {
			l.helper(&Mitigation{Key: "skill/" + m.ID, Title: "Somebody practised instead of " + m.Name,
				Changes: []job.Change{job.Put("member/"+m.ID, "skill", string(figures.Practised))}, matter: "skill/" + m.ID},
				now, 1)
		}
	}
}

// mostMore is how many people one mitigation adds at most.
const mostMore = 2

// more adds one or two beginners from a minute until the end of the job. Its cost is still to be added.
func (l *mitigationList) more(from, people int) *Mitigation {
	option := &Mitigation{Key: "hands/" + strconv.Itoa(from-l.c.In), Title: "One more person from " + l.c.clock(from)}
	if people > 1 {
		option.Key, option.Title = option.Key+"x2", "Two more people from "+l.c.clock(from)
	}
	for i := range people {
		entity := "member/" + freeID(l.job, "member", [...]string{"more-hands", "further-hands"}[i])
		option.Changes = append(option.Changes,
			job.Put(entity, "name", [...]string{"Extra helper", "Second extra helper"}[i]),
			job.Put(entity, "skill", string(figures.Beginner)),
			job.Put(entity, "from", l.c.At(from)), job.Put(entity, "order", l.lastOrder()+float64(i+1)))
	}
	option.Changes = append(option.Changes, l.owner()...)
	return option
}

// lastOrder returns the place of the last member of the crew in its list.
func (l *mitigationList) lastOrder() (order float64) {
	for i := range l.job.Crew {
		order = max(order, l.job.Crew[i].Order)
	}
	return order
}

// owner lists the owner in the crew. Without a list, the owner works alone.
func (l *mitigationList) owner() []job.Change {
	if len(l.job.Crew) > 0 {
		return nil
	}
	return []job.Change{job.Put("member/runs-it", "name", job.UnnamedOwner),
		job.Put("member/runs-it", "skill", string(figures.Practised)), job.Put("member/runs-it", "home", true)}
}

// sooner adds earlier access, and more evenings at home if work at home runs into the day.
func (l *mitigationList) sooner() {
	f := l.c
	for _, sooner := range [...]int{30, 60} {
		l.add(
			&Mitigation{Key: "sooner/" + strconv.Itoa(sooner),
				Title: "Get access " + measure.FormatMinutes(float64(sooner)) + " earlier",
				Cost:  "ask the venue first", Changes: []job.Change{job.Put("brief", "in", f.At(f.In-sooner))}},
			troubleAsk*float64(sooner),
		)
	}
	if !f.homeLate() {
		return
	}
	long := l.plan.Figure("clock/evening-minutes")
	cost := measure.FormatMinutes(long) + " at home"
	if n := int(l.plan.Figure("clock/evenings")); n < 7 {
		l.add(
			&Mitigation{Key: "evening", Title: "Work one more evening at home", Cost: cost, Minutes: long,
				Changes: []job.Change{job.Put("override/clock/evenings", "value", n+1)}},
			0,
		)
	}
	for i := range l.job.Crew {
		if m := &l.job.Crew[i]; !m.Home {
			l.add(
				&Mitigation{Key: "athome/" + m.ID, Title: m.Name + " helps at home too", Cost: cost, Minutes: long,
					Changes: []job.Change{job.Put("member/"+m.ID, "home", true)}, matter: "athome/" + m.ID},
				0,
			)
		}
	}
}

// freeID returns an id that no entity of the noun ever had. It depends on the job only, so the same press on two phones
// without signal adds the same thing.
func freeID(j *job.Job, noun, base string) string {
	id := base
	for n := 2; ; n++ {
		taken := false
		for _, entity := range j.State.Entities(noun) {
			taken = taken || entity == noun+"/"+id
		}
		if !taken {
			return id
		}
		id = base + "-" + strconv.Itoa(n)
	}
}
