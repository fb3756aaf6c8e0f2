// Package transport plans how what is made at home gets to the venue: which cars drive, what each load brings, and what
// is made at the venue because no car takes it.
package transport

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cargo"
)

// Plan is the transport of a job.
type Plan struct {
	None  bool     // nothing is carried: the work is where it hangs
	Drive float64  // minutes of one drive to the venue, 0 with None
	Cars  []Car    // those that drive, in the order of the kit
	Idle  []string // names of cars that nobody can drive
	Loads []Load   // the first of every car, then the second of every car that drives again, and so on
	Moved []Moved  // pieces that do not travel as they were meant to

	// Brought lists pieces that the user wants brought, although they would be ready sooner if made at the venue.
	Brought []Moved
}

// Load is what a car brings on one drive.
type Load struct {
	Car    int // index in Cars
	Number int // 1 for the first of its car
	Litres float64
	Things []Thing
}

// Thing is a number of sections, clusters, bunches, duplets or balloons of a piece.
type Thing struct {
	Piece     string // id
	Name      string // of the piece
	Count     int
	One, Many string
	Litres    float64 // of all of them
}

// Moved is a piece that is made, or joined, at the venue because it does not travel as it was meant to.
type Moved struct {
	Piece, Name string
	How         count.Carriage
	TooMany     bool // it goes in, but not within [MostLoads] loads of a car
	Saves       bool // it goes in, but its further loads take longer than the work at the venue

	// With Saves, for a piece made at the venue: the rounds that it saves, their minutes, and the minutes that all
	// hands at the venue take to make it there.
	Rounds      int
	Away, There float64
}

// MostLoads is how often a car drives at most. What does not come by then is made at the venue. From memory, no source.
const MostLoads = 30

// New plans the transport. A piece made at home goes in joined sections if a car takes one, else as loose clusters that
// are joined at the venue, else it is made at the venue. It is made or joined there too if that takes less time than
// the loads that it saves. New counts such pieces anew.
func New(d *count.Draft) Plan {
	if !d.Travels() {
		return Plan{None: true}
	}
	p := Plan{Drive: DriveMinutes(d)}
	p.Cars, p.Idle = cars(d)
	weighed := false
	for {
		list := p.goods(d)
		if refused := p.refused(list); refused != nil {
			p.move(d, refused, false)
			continue
		}
		loads, rounds := p.share(list)
		switch {
		case rounds > 1 && !weighed:
			p.weigh(d)
			weighed = true
		case rounds <= MostLoads:
			p.Loads = loads
			return p
		default:
			p.move(d, p.least(list), true)
		}
	}
}

// DriveMinutes returns the minutes of one drive to the venue: those of the brief, else the figure; 0 if nothing is
// carried.
func DriveMinutes(d *count.Draft) float64 {
	switch {
	case !d.Travels():
		return 0
	case d.Job.Brief.DriveMin != nil:
		return *d.Job.Brief.DriveMin
	}
	return d.Figures.Get("clock/drive")
}

// Rounds returns how many loads the car that drives most often brings, at least 1.
func (p *Plan) Rounds() int {
	rounds := 1
	for i := range p.Loads {
		rounds = max(rounds, p.Loads[i].Number)
	}
	return rounds
}

// BuiltOnSite names the pieces meant to be made at home that are made at the venue.
func (p *Plan) BuiltOnSite() (names []string) {
	for i := range p.Moved {
		if p.Moved[i].How == count.NotCarried {
			names = append(names, p.Moved[i].Name)
		}
	}
	return names
}

// Later lists the loads after the first of each car.
func (p *Plan) Later() (list []*Load) {
	for i := range p.Loads {
		if p.Loads[i].Number > 1 {
			list = append(list, &p.Loads[i])
		}
	}
	return list
}

// Brings reports whether a load has anything of a piece.
func (l *Load) Brings(piece string) bool {
	for i := range l.Things {
		if l.Things[i].Piece == piece {
			return true
		}
	}
	return false
}

// Words lists what a load brings: "2 sections of Arch and 40 clusters of Wall". It is empty for a load of kit alone.
func (l *Load) Words() string {
	var list []string
	count := 0
	for i := range l.Things {
		t := &l.Things[i]
		count += t.Count
		if next := i + 1; next < len(l.Things) && l.Things[next].Piece == t.Piece && l.Things[next].One == t.One {
			continue // balloons of another size or colour
		}
		list, count = append(list, phrase.Count(count, t.One, t.Many)+" of "+t.Name), 0
	}
	return phrase.And(list)
}

// goods is one kind of thing to carry, see [Thing].
type goods struct {
	piece *count.Counted
	thing Thing
	kind  cargo.Kind
}

// move has a piece carried in the next simpler way, and counts it anew.
func (p *Plan) move(d *count.Draft, c *count.Counted, tooMany bool) {
	how := count.NotCarried
	if c.InSections() && c.Carried == count.AsMeant && !tooMany {
		how = count.InClusters
	}
	p.set(d, c, Moved{Piece: c.Piece.ID, Name: c.Piece.Name, How: how, TooMany: tooMany})
}

// set counts a piece anew for another carriage and notes why.
func (p *Plan) set(d *count.Draft, c *count.Counted, m Moved) {
	d.Recount(c, m.How)
	for i := range p.Moved {
		if p.Moved[i].Piece == m.Piece {
			p.Moved[i] = m
			return
		}
	}
	p.Moved = append(p.Moved, m)
}

// refused returns the first piece with something that no car takes, nil if there is none.
func (p *Plan) refused(list []goods) *count.Counted {
	for i := range list {
		takes := false
		for _, each := range list[i].kind.Each {
			takes = takes || each > 0
		}
		if !takes {
			return list[i].piece
		}
	}
	return nil
}

// least returns the piece to leave at the venue if there are too many loads: the largest of those that matter least.
func (p *Plan) least(list []goods) *count.Counted {
	var worst *count.Counted
	worstRank, most := -1, 0.0
	for i := range list {
		litres := 0.0
		for k := range list {
			if list[k].piece == list[i].piece {
				litres += list[k].thing.Litres
			}
		}
		if rank := list[i].kind.Rank; rank > worstRank || rank == worstRank && litres > most {
			worst, worstRank, most = list[i].piece, rank, litres
		}
	}
	return worst
}

// share divides the goods over the loads and returns the number of rounds.
func (p *Plan) share(list []goods) ([]Load, int) {
	litres, kinds := make([]float64, len(p.Cars)), make([]cargo.Kind, len(list))
	for i := range p.Cars {
		litres[i] = p.Cars[i].Litres
	}
	for i := range list {
		kinds[i] = list[i].kind
	}
	if rounds := cargo.Rounds(litres, kinds); rounds > MostLoads {
		return nil, rounds
	}
	trips, _ := cargo.Carry(litres, kinds)
	var loads []Load
	rounds := 0
	for _, trip := range trips {
		load := Load{Car: trip.Car, Number: trip.Round, Litres: trip.Litres}
		for k, n := range trip.Counts {
			if n > 0 {
				thing := list[k].thing
				thing.Count, thing.Litres = n, float64(n)*kinds[k].Each[trip.Car]
				load.Things = append(load.Things, thing)
			}
		}
		loads, rounds = append(loads, load), max(rounds, trip.Round)
	}
	return loads, rounds
}

// rank orders priorities: must, should, could.
func rank(priority string) int {
	switch priority {
	case "should":
		return 1
	case "could":
		return 2
	}
	return 0
}

// broughtOf returns how many of a piece's things are made at home, rounded up.
func broughtOf(c *count.Counted, things int) int {
	if !c.OnSite {
		return things
	}
	return figures.RoundUp(float64(things) * float64(c.Ahead) / float64(c.Make.Count))
}
