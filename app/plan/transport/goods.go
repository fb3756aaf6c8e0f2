package transport

import (
	"math"
	"slices"

	"garlandry/app/plan/count"
	"garlandry/calc/cargo"
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

// goods lists what is made at home, with the litres that each thing needs in each car.
func (p *Plan) goods(d *count.Draft) (list []goods) {
	for _, c := range d.Pieces {
		if c.AtHome() > 0 {
			list = append(list, p.goodsOf(d, c)...)
		}
	}
	return list
}

// goodsOf lists the things of one piece. The sections of a base all count as long as the longest; they differ by at
// most a cluster.
func (p *Plan) goodsOf(d *count.Draft, c *count.Counted) (list []goods) {
	load := cargo.Load{SqueezePct: cargo.CommonSqueezePct, Packing: d.Figures.Get("car/packing")}
	var things []Thing
	add := func(n int, one, many string) {
		things = append(things, Thing{Piece: c.Piece.ID, Name: c.Piece.Name, Count: n, One: one, Many: many})
	}
	for i := range c.Layers {
		if l := &c.Layers[i]; !l.OnSite {
			load.Clusters = append(load.Clusters, cargo.Clusters{ReachMM: cluster.BallMM(l.Recipe), Count: 1,
				Filling: fillingOf(d, l.By, float64(l.Clusters))})
			add(l.Clusters, "cluster", "clusters")
		}
	}
	switch {
	case c.OnSite && c.Ahead == 0:
	case c.InSections():
		load.Sections = sectionsOf(d, c)
		for _, s := range load.Sections {
			add(s.Count, "section", "sections")
		}
	case c.Clusters > 0:
		load.Clusters = append(load.Clusters, cargo.Clusters{ReachMM: cluster.BallMM(c.Recipe), Count: 1,
			Filling: filling(d, c, c.Clusters)})
		add(broughtOf(c, c.Clusters), "cluster", "clusters")
	case c.Make.One == "balloon":
		for _, b := range c.Own() {
			mm := float64(b.ToIn * latex.MMPerInch)
			load.Clusters = append(load.Clusters, cargo.Clusters{ReachMM: mm, Count: 1,
				Filling: cargo.Filling{AirL: d.EachL(b.SizeIn, b.ToIn), BalloonMM: mm}})
			add(broughtOf(c, b.Count), "balloon", "balloons")
		}
	case c.Make.Count > 0:
		one := cargo.Clusters{Count: 1, Filling: filling(d, c, c.Make.Count)}
		if one.ReachMM = one.Filling.BalloonMM; c.Bunched() {
			one.ReachMM *= 2 // neck to neck; a pair goes through a door one after the other
		}
		load.Clusters = append(load.Clusters, one)
		add(broughtOf(c, c.Make.Count), c.Make.One, c.Make.Many)
	}
	for i := range things {
		kind := cargo.Kind{Count: things[i].Count, Rank: rank(c.Piece.Priority), Each: make([]float64, len(p.Cars))}
		list = append(list, goods{piece: c, thing: things[i], kind: kind})
	}
	for car := range p.Cars {
		space := p.Cars[car].space
		if door := d.Job.Brief.DoorMM; door > 0 { // the doorway of the venue stops what a tailgate lets through
			space.DoorWidthMM = min(max(door, cargo.SmallestMM), cargo.LargestMM)
		}
		each, err := cargo.Needs(space, p.Cars[car].fitting(load))
		for i := range list {
			if err == nil {
				list[i].kind.Each[car] = each[i]
				list[i].thing.Litres = float64(each[i] * float64(list[i].thing.Count))
			}
		}
	}
	return list
}

// sectionsOf lists the sections of each base of a piece.
func sectionsOf(d *count.Draft, c *count.Counted) (list []cargo.Sections) {
	across, clusters := cluster.WidestMM(c.Recipe, d.Push), 0
	for i, s := range c.Sections {
		if i == 0 || s.Base != c.Sections[i-1].Base {
			list, clusters = append(list, cargo.Sections{AcrossMM: across}), 0
		}
		now := &list[len(list)-1]
		now.LengthMM = max(now.LengthMM, s.LengthMM)
		now.Count++
		clusters += s.Clusters
		now.Filling = fillingOf(d, c.Own(), float64(now.Count)*(float64(c.Clusters)/float64(clusters)))
	}
	return list
}

// filling returns the air and the largest balloon of one of a piece's equal things, without layers.
func filling(d *count.Draft, c *count.Counted, things int) cargo.Filling {
	return fillingOf(d, c.Own(), float64(things))
}

// fillingOf returns the air and the largest balloon of one of so many equal things.
func fillingOf(d *count.Draft, by []count.PieceBalloons, things float64) cargo.Filling {
	airL, largestIn := 0.0, 0.0
	for _, b := range by {
		airL += float64(float64(b.Count) * d.EachL(b.SizeIn, b.ToIn))
		largestIn = max(largestIn, b.ToIn)
	}
	return cargo.Filling{AirL: airL / things, BalloonMM: float64(largestIn * latex.MMPerInch)}
}

// fitting returns the load with its sections as long as a car of unknown length is cautiously taken to be. How long
// they may be there is a figure, and they were cut by it.
func (c *Car) fitting(load cargo.Load) cargo.Load {
	if c.space.LengthMM > 0 {
		return load
	}
	load.Sections = slices.Clone(load.Sections)
	for i := range load.Sections {
		load.Sections[i].LengthMM = min(load.Sections[i].LengthMM, math.Floor(math.Cbrt(c.Litres*1e6)))
	}
	return load
}
