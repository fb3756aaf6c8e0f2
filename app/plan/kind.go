package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/order"
)

// kind is how one kind of piece is counted.
type kind struct {
	name  job.PieceKind
	count func(*Draft, *counted)
}

// kinds lists every kind of piece. A new one is one file and one line here (and its noun's choice in app/job).
var kinds = []kind{garlandKind, hoopKind, columnKind, wallKind, bouquetsKind, tablesKind, numbersKind, freeKind}

// counted is a piece as it has been counted, with what the cards and the pack list want to know besides.
type counted struct {
	PieceCount
	make     batch           // what is made of it beforehand
	base     []PieceBalloons // its balloons without accents and without stand-ins
	accent   cluster.Recipe
	parts    []part  // what its duplets are, for the time they take
	where    Place   // where it is made
	ahead    int     // of what is made on site, so many at home
	lineMM   float64 // of base to fix and shape, all strings together
	highMM   float64 // how high hands must reach
	fix      batch   // what is put up on site
	joined   bool    // clusters are joined into a base
	helium   bool
	accentBy []part
	mixed    []mix // how the clusters of several colours are made up, a size each
}

// batch is a number of things that one card counts.
type batch struct {
	count     int
	one, many string
}

// part is a number of duplets of one size.
type part struct {
	duplets int
	sizeIn  int
	toIn    float64
}

// count works out what one piece takes.
func (d *Draft) count(p job.Piece) *counted {
	c := &counted{PieceCount: PieceCount{Piece: p}, where: Home}
	if p.Built == "site" {
		c.where = Site
	}
	known := false
	for _, k := range kinds {
		if k.name == p.Kind {
			known = true
			k.count(d, c)
		}
	}
	if !known {
		d.warn(p.ID, p.Name+": a kind of piece that this version does not know, so it is not counted. Update the app.")
	}
	c.base = append([]PieceBalloons(nil), c.By...)
	for _, s := range c.StandIns {
		c.base = without(c.base, s)
	}
	d.accents(c)
	c.sortBalloons(d.job)
	if c.where == Site && !c.helium {
		c.ahead = min(p.Ahead, c.make.count)
	}
	if c.ahead < c.make.count {
		c.MakeKey = "card/make/" + p.ID
	}
	if c.ahead > 0 {
		c.AheadKey = "card/ahead/" + p.ID
	}
	if c.fix.count > 0 {
		c.FixKey = "card/fix/" + p.ID
	}
	return c
}

// atHome is the share of a piece's balloons that is filled at home, 0 to 1.
func (c *counted) atHome() float64 {
	switch {
	case c.where == Home:
		return 1
	case c.ahead == 0 || c.Balloons == 0:
		return 0
	}
	return float64(c.Balloons-c.AccentBalloons) / float64(c.Balloons) * float64(c.ahead) / float64(c.make.count)
}

// without takes the balloons of a stand-in out of a list.
func without(list []PieceBalloons, s StandIn) []PieceBalloons {
	var rest []PieceBalloons
	for _, b := range list {
		for _, part := range s.Recipe {
			if b.Colour.ID == s.Colour.ID && b.SizeIn == part.SizeIn && b.ToIn == part.ToIn {
				b.Count -= 2 * part.Duplets * s.Clusters
			}
		}
		if b.Count > 0 {
			rest = append(rest, b)
		}
	}
	return rest
}

// add puts balloons of one size and colour into the piece.
func (c *counted) add(sizeIn int, toIn float64, colour job.Colour, n int) {
	if n <= 0 {
		return
	}
	c.Balloons += n
	for i := range c.By {
		b := &c.By[i]
		if b.SizeIn == sizeIn && b.ToIn == toIn && b.Colour.ID == colour.ID {
			b.Count += n
			return
		}
	}
	c.By = append(c.By, PieceBalloons{sizeIn, toIn, colour, n})
}

// line adds a line to the working.
func (c *counted) line(what, how, result string, source Source) {
	c.Working = append(c.Working, Line{what, how, result, source})
}

func (c *counted) sortBalloons(j job.Job) {
	rank := paletteRank(j)
	sortBySize(c.By, rank)
	sortBySize(c.base, rank)
}

func sortBySize(list []PieceBalloons, rank func(id string) int) {
	order.By(list, func(a, b int) bool {
		x, y := list[a], list[b]
		switch {
		case x.SizeIn != y.SizeIn:
			return x.SizeIn < y.SizeIn
		case x.Colour.ID != y.Colour.ID:
			return rank(x.Colour.ID) < rank(y.Colour.ID)
		}
		return x.ToIn < y.ToIn
	})
}

// paletteRank gives a colour's place in the palette; colours that are not in it come last.
func paletteRank(j job.Job) func(id string) int {
	places := make(map[string]int, len(j.Colours))
	for i, c := range j.Colours {
		places[c.ID] = i
	}
	return func(id string) int {
		if place, known := places[id]; known {
			return place
		}
		return len(places)
	}
}
