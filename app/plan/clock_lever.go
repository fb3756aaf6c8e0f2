package plan

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/crew"
	"garlandry/calc/measure"
)

// Lever is one change that would help the crew to be done in time.
type Lever struct {
	Key     string
	Title   string
	Cost    string // what it costs, in words
	Changes []job.Change
	piece   string // that it is about
	home    bool   // it moves work home, if the car takes it
	lever   crew.Lever
}

// What a change costs, in minutes of trouble, by which changes are compared. From memory, no source.
const (
	troubleHome    = 0.25 // for a minute of work more at home
	troubleHands   = 0.25 // for a minute of somebody else's time
	troubleBorrow  = 20
	troubleThin    = 25
	troubleEvening = 40
	troublePlain   = 50
	troubleSooner  = 1.5 // for a minute that the venue opens sooner
	troubleOut     = 120
)

// levers lists what could be changed about a job, as far as it makes sense there, the cheapest kinds first.
func (c *Clock) levers(j *job.Job, p *Plan) []Lever {
	var list []Lever
	minutes := func(match func(t *crew.Task) bool) (sum float64) {
		for i := range c.job.Tasks {
			if t := &c.job.Tasks[i]; match(t) {
				sum += t.Minutes
			}
		}
		return sum
	}
	add := func(l Lever, price float64, apply func(crew.Job) crew.Job) {
		l.lever = crew.Lever{Key: l.Key, Price: price, Apply: apply}
		list = append(list, l)
	}
	for i := range j.Pieces {
		c.pieceLevers(&j.Pieces[i], p, minutes, add)
	}
	c.kitLevers(j, add)
	if left := c.Doors - max(c.In, c.Now); left > 0 {
		for _, late := range [...]int{0, left / 2} {
			from := max(c.In, c.Now) + late
			if late > 0 {
				from -= from % 30
			}
			c.handsLever(j, from, add)
		}
	}
	if c.Now < c.In {
		for _, sooner := range [...]int{30, 60} {
			words := measure.FormatMinutes(float64(sooner))
			add(Lever{Key: "sooner/" + strconv.Itoa(sooner), Title: "Be let in " + words + " sooner", Cost: "the venue must agree: ask first",
				Changes: []job.Change{job.Put("brief", "in", c.At(c.In-sooner))}}, troubleSooner*float64(sooner), crew.Sooner(crew.Site, sooner))
		}
		if n := len(c.Evenings); n < 7 && c.homeLate() {
			add(Lever{Key: "evening", Title: "Work one more evening at home", Cost: measure.FormatMinutes(p.figure("clock/evening-minutes")) + " at home",
				Changes: []job.Change{job.Put("override/clock/evenings", "value", n+1)}}, troubleEvening, func(in crew.Job) crew.Job {
				long := int(p.figure("clock/evening-minutes"))
				from := daysAhead*dayMinutes - (n+1)*dayMinutes + int(p.figure("clock/evening-hour")*60)
				in.Windows[crew.Home] = append([]crew.Interval{{From: from, To: from + long}}, in.Windows[crew.Home]...)
				return in
			})
		}
	}
	return list
}

// homeLate reports whether work at home runs into the day itself.
func (c *Clock) homeLate() bool {
	for i := range c.Tasks {
		if c.Tasks[i].Place == Home && c.Tasks[i].End > daysAhead*dayMinutes {
			return true
		}
	}
	return false
}

type addLever func(l Lever, price float64, apply func(crew.Job) crew.Job)

// pieceLevers are the changes to one piece: made at home, accents thinned, a plainer recipe, left out.
func (c *Clock) pieceLevers(piece *job.Piece, p *Plan, minutes func(func(*crew.Task) bool) float64, add addLever) {
	id, name := piece.ID, piece.Name
	of := func(t *crew.Task) bool { return t.Piece == id && t.Place != crew.TakeDown }
	here := func(t *crew.Task) bool {
		return of(t) && t.Place == crew.Site && (strings.HasPrefix(t.Key, "card/make/") || strings.HasPrefix(t.Key, "card/join/") || strings.HasPrefix(t.Key, "card/accents/"))
	}
	entity := "piece/" + id
	if moved := minutes(here); piece.Built == "site" && piece.Gas != "helium" && moved > 0 && c.Now < c.In {
		add(Lever{Key: "home/" + id, Title: "Make " + name + " at home", Cost: measure.FormatMinutes(moved) + " more at home, and it must fit the car",
			Changes: []job.Change{job.Put(entity, "built", "home")}, piece: name, home: true}, troubleHome*moved, func(in crew.Job) crew.Job {
			in.Tasks = append([]crew.Task(nil), in.Tasks...)
			for i := range in.Tasks {
				switch t := &in.Tasks[i]; {
				case here(t):
					t.Place, t.Before = crew.Home, nil
				case t.Place == crew.Load:
					t.Before = append(append([]string(nil), t.Before...), "card/make/"+id, "card/join/"+id, "card/accents/"+id)
				}
			}
			return in
		})
	}
	accents := func(t *crew.Task) bool {
		return t.Piece == id && (strings.HasPrefix(t.Key, "card/accents/") || strings.HasPrefix(t.Key, "card/dress/"))
	}
	for i := range p.Pieces {
		if count := p.Pieces[i].Accents; p.Pieces[i].Piece.ID == id && count >= 4 && minutes(accents) > 0 {
			add(Lever{Key: "thin/" + id, Title: "Half the accents on " + name, Cost: "it looks plainer",
				Changes: []job.Change{job.Put(entity, "accents", count/2)}}, troubleThin, lighten(accents, 0.5))
		}
	}
	work := func(t *crew.Task) bool { return of(t) && strings.HasPrefix(t.Key, "card/make/") }
	if plain, simpler := plainer(piece.Recipe); simpler && minutes(work) > 0 {
		add(Lever{Key: "plain/" + id, Title: "One size only in " + name + ": " + plain, Cost: "it looks more even",
			Changes: []job.Change{job.Put(entity, "recipe", plain)}}, troublePlain, lighten(work, 0.85))
	}
	if left := minutes(of); piece.Priority == "could" && left > 0 {
		add(Lever{Key: "out/" + id, Title: "Leave out " + name, Cost: "it will be missed",
			Changes: []job.Change{job.Put(entity, "removed", true)}}, troubleOut, crew.LeaveOut(func(t crew.Task) bool { return t.Piece == id }))
	}
}

// lighten leaves a share of the work of the tasks that match.
func lighten(match func(*crew.Task) bool, share float64) func(crew.Job) crew.Job {
	return func(in crew.Job) crew.Job {
		in.Tasks = append([]crew.Task(nil), in.Tasks...)
		for i := range in.Tasks {
			if t := &in.Tasks[i]; match(t) {
				t.Minutes = float64(t.Minutes * share)
			}
		}
		return in
	}
}

// plainer is a recipe of as many duplets in its smallest size; false if it has one size already.
func plainer(r cluster.Recipe) (string, bool) {
	if len(r) < 2 {
		return "", false
	}
	one := cluster.Recipe{r[0]}
	one[0].Duplets = r.Duplets()
	return one.String(), one.Check() == nil
}

// kitLevers are a second pump or ladder, where more than one task wants it.
func (c *Clock) kitLevers(j *job.Job, add addLever) {
	for i := range c.job.Things {
		thing := &c.job.Things[i]
		wanted := 0
		for k := range c.job.Tasks {
			for _, need := range c.job.Tasks[k].Needs {
				if need.Thing == thing.Key {
					wanted++
				}
			}
		}
		if wanted < 2 || thing.Count >= len(c.job.People) {
			continue
		}
		l := Lever{Key: thing.Key, Title: "Borrow another " + thing.Key, Cost: "somebody to ask"}
		for k := range j.Kit {
			if kit := &j.Kit[k]; kit.Kind == thing.Key && kit.Count > 0 && l.Changes == nil {
				l.Changes = []job.Change{job.Put("kit/"+kit.ID, "count", kit.Count+1)}
			}
		}
		if l.Changes == nil {
			entity := "kit/" + freeID(j, "kit", "borrowed-"+thing.Key)
			l.Changes = []job.Change{job.Put(entity, "kind", thing.Key), job.Put(entity, "name", "Borrowed "+thing.Key), job.Put(entity, "count", 2)}
		}
		add(l, troubleBorrow, crew.MoreOf(thing.Key, 1))
	}
}

// handsLever is one more pair of beginner's hands from a minute until all is done.
func (c *Clock) handsLever(j *job.Job, from int, add addLever) {
	entity := "member/" + freeID(j, "member", "more-hands")
	order := 0.0
	for i := range j.Crew {
		order = max(order, j.Crew[i].Order)
	}
	l := Lever{Key: "hands/" + strconv.Itoa(from-c.In), Title: "One more pair of hands from " + c.clock(from), Cost: measure.FormatMinutes(float64(c.Doors-from)) + " of somebody's time",
		Changes: []job.Change{job.Put(entity, "name", "One more"), job.Put(entity, "skill", string(beginner)), job.Put(entity, "from", c.At(from)), job.Put(entity, "order", order+1)}}
	if len(j.Crew) == 0 { // until now whoever runs the job was taken to be there
		l.Changes = append(l.Changes, job.Put("member/runs-it", "name", "Whoever runs the job"), job.Put("member/runs-it", "skill", string(practised)), job.Put("member/runs-it", "home", true))
	}
	add(l, troubleHands*float64(c.Doors-from), crew.MoreHands(crew.Person{Key: entity, Free: []crew.Interval{{From: from, To: faraway}}, Only: []crew.Place{crew.Site, crew.TakeDown}}))
}

// freeID is an id that no entity of the noun ever had. It follows from the job, so that two phones without signal that
// press the same button mean the same thing.
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
