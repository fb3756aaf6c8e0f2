package rigging

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// Uprights says what columns or digits of a job stand on.
type Uprights struct {
	Need    int            // how many stands they take
	Lacking int            // how many of those the kit does not have
	Pieces  string         // names of the pieces that lack one
	Used    map[string]int // how many are used of each kit item, by its id
}

// Uprights counts the stands of a kind of kit: "pole" for columns, "digits" for number frames. A piece takes those it
// names, then any that are free. A piece on an ordinary frame takes none.
func (d *Rig) Uprights(kind string) Uprights {
	u := Uprights{Used: map[string]int{}}
	free := map[string]int{}
	for _, k := range d.Job.Kit {
		if k.Kind == kind {
			free[k.ID] = k.Count
		}
	}
	lacking := map[string]int{} // by piece
	for _, c := range d.Pieces {
		_, stands := free[c.Piece.Frame]
		if c.Kind.Stand != kind || d.carried(c) && !stands {
			continue
		}
		u.Need += c.Fix.Count
		own := min(c.Fix.Count, free[c.Piece.Frame])
		u.use(free, c.Piece.Frame, own)
		lacking[c.Piece.ID] = c.Fix.Count - own
	}
	for _, c := range d.Pieces {
		for _, k := range d.Job.Kit {
			n := min(lacking[c.Piece.ID], free[k.ID])
			u.use(free, k.ID, n)
			lacking[c.Piece.ID] -= n
		}
		if n := lacking[c.Piece.ID]; n > 0 {
			u.Lacking += n
			u.Pieces = phrase.AppendName(u.Pieces, c.Piece.Name)
		}
	}
	return u
}

func (u *Uprights) use(free map[string]int, id string, n int) {
	if n > 0 {
		free[id] -= n
		u.Used[id] += n
	}
}

// Upright reports whether a kit item is what columns or digits stand on, not a frame that garlands, walls and signs
// hang on. One person handles it.
func Upright(k job.Kit) bool { return k.Kind == "pole" || k.Kind == "digits" }

// carried reports whether a piece names something of the kit that carries it.
func (d *Rig) carried(c *count.Counted) bool {
	_, known := d.Job.KitItem(c.Piece.Frame)
	return known
}

// Unhung returns the walls that nothing of the kit carries.
func (d *Rig) Unhung() []*count.Counted {
	var list []*count.Counted
	for _, c := range d.Pieces {
		if c.Kind.Covers && c.Balloons > 0 && !d.carried(c) {
			list = append(list, c)
		}
	}
	return list
}

// Standing counts the frames, column stands and number frames that stand on the floor.
func (d *Rig) Standing() int {
	n := len(d.Unhung()) + d.Uprights("pole").Need + d.Uprights("digits").Need
	for _, k := range d.Frames {
		if !Upright(k) {
			n += max(1, k.Count)
		}
	}
	return n
}
