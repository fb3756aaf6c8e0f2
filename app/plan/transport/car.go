// Package transport plans how what is made at home goes into the car: how many trips, and what does not fit.
package transport

import (
	"math"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/calc/cargo"
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

// Plan is the transport of a job.
type Plan struct {
	Trips       int      // at least 1
	Litres      float64  // of one trip
	BuiltOnSite []string // names of pieces that do not fit
}

// New computes the trips from the room that the bags take, see [cargo.Pack].
func New(d *count.Draft) Plan {
	space, cars := space(d)
	p := Plan{Trips: 1, Litres: space.Litres}
	load := cargo.Load{SqueezePct: cargo.CommonSqueezePct, Packing: d.Figures.Get("car/packing")}
	for _, c := range d.Pieces {
		if c.AtHome() > 0 {
			add(d, &load, c)
		}
	}
	answer, err := cargo.Pack(space, load)
	if err != nil {
		p.Trips = max(1, figures.RoundUp(d.BulkHomeL()/space.Litres)) // too many for the packing model: by volume
	} else {
		p.Trips = max(1, answer.Trips)
		for _, r := range answer.Refused {
			p.BuiltOnSite = append(p.BuiltOnSite, r.Name)
		}
	}
	p.Trips = max(1, figures.RoundUp(float64(p.Trips)/float64(cars)))
	return p
}

// add adds to the load what is made at home for a piece. All its sections count as long as the longest; they differ by
// at most a cluster.
func add(d *count.Draft, load *cargo.Load, c *count.Counted) {
	const most = cargo.MostKinds - 8
	if len(load.Balls)+len(load.Clusters)+len(load.Sections) >= most {
		return
	}
	airL, largestIn := 0.0, 0.0
	for _, b := range c.By {
		airL += float64(float64(b.Count) * d.EachL(b.SizeIn, b.ToIn))
		largestIn = max(largestIn, b.ToIn)
	}
	each := func(things int) cargo.Filling {
		return cargo.Filling{AirL: airL / float64(things), BalloonMM: float64(largestIn * latex.MMPerInch)}
	}
	switch {
	case c.Joined && !c.OnSite:
		longest := 0.0
		for _, s := range c.Sections {
			longest = max(longest, s.LengthMM)
		}
		load.Sections = append(load.Sections, cargo.Sections{Name: c.Piece.Name, LengthMM: longest,
			AcrossMM: cluster.GirthMM(c.Recipe, d.Push), Count: min(len(c.Sections), cargo.LargestCount),
			Filling: each(len(c.Sections))})
	case c.Clusters > 0:
		load.Clusters = append(load.Clusters, cargo.Clusters{Name: c.Piece.Name, ReachMM: cluster.BallMM(c.Recipe),
			Count: min(broughtOf(c, c.Clusters), cargo.LargestCount), Filling: each(c.Clusters)})
	default:
		for _, b := range c.By {
			if len(load.Balls)+len(load.Clusters)+len(load.Sections) < most {
				load.Balls = append(load.Balls, cargo.Balls{Name: c.Piece.Name,
					DiameterMM: float64(b.ToIn * latex.MMPerInch), Count: min(broughtOf(c, b.Count), cargo.LargestCount)})
			}
		}
	}
}

// broughtOf returns how many of a piece's things are made at home, rounded up.
func broughtOf(c *count.Counted, things int) int {
	if !c.OnSite {
		return things
	}
	return figures.RoundUp(float64(things) * float64(c.Ahead) / float64(c.Make.Count))
}

// space returns the largest car of the kit, or a usual one, and how many cars there are. A car is a box as long as its
// longest load, if that is known, else a cube.
func space(d *count.Draft) (cargo.Space, int) {
	var best job.Kit
	cars := 0
	for _, k := range d.Job.Kit {
		if k.Kind == "car" && k.Litres > 0 && k.Count > 0 {
			cars += k.Count
			if k.Litres > best.Litres {
				best = k
			}
		}
	}
	if cars == 0 {
		return cargo.Space{Litres: d.Figures.Get("car/litres")}, 1
	}
	space := cargo.Space{Litres: best.Litres}
	if best.LongestMM >= cargo.SmallestSpaceMM {
		side := math.Sqrt(float64(best.Litres*1e6) / best.LongestMM)
		if side >= cargo.SmallestSpaceMM && side <= cargo.LargestMM {
			space.LengthMM, space.WidthMM, space.HeightMM = best.LongestMM, side, side
		}
	}
	return space, cars
}
