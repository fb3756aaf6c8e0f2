package count

import (
	"cmp"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/stable"
)

// Counted is a counted piece with what the cards and the pack list need besides.
type Counted struct {
	PieceCount
	Kind    *Kind           // empty if this version does not know the kind
	Make    Batch           // what is made of it beforehand
	Base    []PieceBalloons // its balloons without accents and without substitutes
	Parts   []part          // its duplets by size, for their minutes
	OnSite  bool            // made on site, not at home
	Carried Carriage
	Ahead   int     // how many of those made on site are made at home after all
	LineMM  float64 // of base to fix and shape, all strings together
	HighMM  float64 // how high hands must reach
	Fix     Batch   // what is put up on site
	Joined  bool    // clusters are joined into a base
	Helium  bool
}

// Batch is a number of things that one card counts.
type Batch struct {
	Count     int
	One, Many string
}

// Bunched reports whether the balloons of a piece are tied into bunches of more than a pair, which are set out as they
// were made: table pieces and bouquets.
func (c *Counted) Bunched() bool { return c.Make.Count > 0 && c.Make == c.Fix && c.Clusters == 0 }

// Twists returns how often balloons are twisted or tied together to make a piece: once for each cluster or bunch.
func (c *Counted) Twists() int {
	if c.Bunched() && !c.Helium {
		return c.Make.Count
	}
	return c.Clusters
}

// part is a number of duplets of one size.
type part struct {
	Duplets int
	SizeIn  int
	toIn    float64
}

// count counts one piece.
func (d *Draft) count(p job.Piece) *Counted { return d.countCarried(p, AsMeant) }

// countCarried counts a piece that travels in a certain way.
func (d *Draft) countCarried(p job.Piece, how Carriage) *Counted {
	kind, known := KindOf(d.kinds, p.Kind)
	c := &Counted{PieceCount: PieceCount{Piece: p}, Kind: kind, OnSite: p.Built == "site" || how == NotCarried,
		Carried: how}
	c.Form = kind.Form
	if known {
		kind.Count(d, c)
	} else {
		d.Warn(p.ID, p.Name+": this version does not know this kind of piece, so it is not counted. Update the app.")
	}
	c.Base = append([]PieceBalloons(nil), c.By...)
	for _, s := range c.Substitutes {
		c.Base = without(c.Base, s)
	}
	d.layers(c)
	c.sortBalloons(d.Job)
	if c.OnSite && !c.Helium && how != NotCarried {
		c.Ahead = min(p.Ahead, c.Make.Count)
	}
	if c.Ahead < c.Make.Count {
		c.MakeKey = job.CardKey("make", p.ID)
	}
	if c.Ahead > 0 {
		c.AheadKey = job.CardKey("ahead", p.ID)
	}
	if c.Fix.Count > 0 {
		c.FixKey = job.CardKey("fix", p.ID)
	}
	return c
}

// AtHome returns the share of a piece's balloons that is filled at home, 0 to 1.
func (c *Counted) AtHome() float64 {
	if len(c.Layers) == 0 || c.Balloons == 0 {
		return c.ownAtHome()
	}
	own, home := c.Balloons, 0
	for i := range c.Layers {
		own -= c.Layers[i].Balloons
		if !c.Layers[i].OnSite {
			home += c.Layers[i].Balloons
		}
	}
	return (float64(c.ownAtHome()*float64(own)) + float64(home)) / float64(c.Balloons)
}

// ownAtHome is [Counted.AtHome] of the base and its accents.
func (c *Counted) ownAtHome() float64 {
	own := 0
	for _, b := range c.Own() {
		own += b.Count
	}
	switch {
	case !c.OnSite:
		return 1
	case c.Ahead == 0 || own == 0:
		return 0
	}
	return float64(own-c.AccentBalloons) / float64(own) * float64(c.Ahead) / float64(c.Make.Count)
}

// BroughtFull returns how many of a piece's balloons of a size and colour travel blown up: all of a piece made at home,
// and those in what is made ahead for a piece built on site, rounded down.
func (c *Counted) BroughtFull(sizeIn int, colour string) int {
	list, ahead, of := c.Own(), 1, 1
	if c.OnSite {
		list, ahead, of = c.Base, c.Ahead, max(1, c.Make.Count)
	}
	n := 0
	for _, b := range list {
		if b.SizeIn == sizeIn && b.Colour.ID == colour {
			n += b.Count * ahead / of
		}
	}
	for i := range c.Layers {
		for _, b := range c.Layers[i].By {
			if !c.Layers[i].OnSite && b.SizeIn == sizeIn && b.Colour.ID == colour {
				n += b.Count
			}
		}
	}
	return n
}

// without removes the balloons of a substitute from a list.
func without(list []PieceBalloons, s Substitute) []PieceBalloons {
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
func (c *Counted) add(sizeIn int, toIn float64, colour job.Colour, n int) {
	if n <= 0 {
		return
	}
	c.Balloons += n
	c.By = plus(c.By, PieceBalloons{sizeIn, toIn, colour, n})
}

// plus adds balloons to a list, to those of their size and colour if there are any.
func plus(list []PieceBalloons, more PieceBalloons) []PieceBalloons {
	for i := range list {
		b := &list[i]
		if b.SizeIn == more.SizeIn && b.ToIn == more.ToIn && b.Colour.ID == more.Colour.ID {
			b.Count += more.Count
			return list
		}
	}
	return append(list, more)
}

// line adds a line to the working.
func (c *Counted) line(what, how, result string, source figures.Source) {
	c.Working = append(c.Working, figures.Line{What: what, How: how, Result: result, Source: source})
}

func (c *Counted) sortBalloons(j job.Job) {
	rank := paletteRank(j)
	sortBySize(c.By, rank)
	sortBySize(c.Base, rank)
	for i := range c.Layers {
		sortBySize(c.Layers[i].By, rank)
	}
	sortBySize(c.Accent.By, rank)
}

func sortBySize(list []PieceBalloons, rank func(id string) int) {
	stable.Sort(list, func(a, b PieceBalloons) int {
		switch {
		case a.SizeIn != b.SizeIn:
			return cmp.Compare(a.SizeIn, b.SizeIn)
		case a.Colour.ID != b.Colour.ID:
			return cmp.Compare(rank(a.Colour.ID), rank(b.Colour.ID))
		}
		return cmp.Compare(a.ToIn, b.ToIn)
	})
}

// paletteRank returns a colour's place in the palette; colours that are not in it come last.
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
