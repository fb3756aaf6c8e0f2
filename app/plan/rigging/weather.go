package rigging

import (
	"garlandry/app/plan/count"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// GustMPS returns the strongest gust to expect, over some three seconds: the brief's, else what its mean wind brings,
// else the figure. It is 0 indoors.
func (d *Rig) GustMPS() float64 {
	if !d.Outdoors() {
		return 0
	}
	wind, gust := d.Job.Brief.WindMPS, d.Job.Brief.GustMPS
	switch {
	case gust != nil && wind != nil:
		return max(*gust, *wind)
	case gust != nil:
		return *gust
	case wind != nil:
		return rig.GustMPS(*wind)
	}
	return d.Figures.Get("supply/gust")
}

// Gust writes the strongest gust to expect: "9 m/s".
func (d *Rig) Gust() string { return measure.FormatSpeed(d.GustMPS(), d.Units) }

// Rains reports whether rain is likely outdoors. Under cover it comes in with people and from the side.
func (d *Rig) Rains() bool { return d.Outdoors() && d.Job.Brief.Rain == "rain" }

// Sunny reports whether the sun can reach the work.
func (d *Rig) Sunny() bool { return d.Job.Brief.Place == "outdoors" && d.Job.Brief.Sun == "sun" }

// friction returns the friction of feet and weights on the venue's floor.
func (d *Rig) friction() float64 {
	floor := d.Job.Brief.Floor
	switch floor {
	case "carpet", "grass", "gravel":
	default:
		floor = "hard"
	}
	friction := d.Figures.Get("stand/friction-" + floor)
	if d.Rains() && d.Job.Brief.Place == "outdoors" {
		friction = min(friction, d.Figures.Get("stand/friction-wet"))
	}
	return friction
}

// StakesKey is the key of the choice whether stakes may be driven into the grass.
const StakesKey = "stakes"

// The answers to whether stakes may be driven in.
const (
	pickStakes   = "stakes"
	pickNoStakes = "none"
)

// StakesOptions returns the answers to that choice.
func StakesOptions() []count.Option {
	return []count.Option{{Value: pickStakes, Label: "Stakes and lines"}, {Value: pickNoStakes, Label: "Weights only"}}
}

// OnGrass reports whether frames stand on grass outdoors, where stakes can hold them.
func (d *Rig) OnGrass() bool { return d.Outdoors() && d.Job.Brief.Floor == "grass" }

// staked reports whether stakes and lines count. They do on grass unless the user says otherwise.
func (d *Rig) staked() bool {
	return d.OnGrass() && d.Picked(StakesKey, StakesOptions()) != pickNoStakes
}

// Staked reports whether a stand of the kit, or of a piece that names none, gets stakes and lines.
func (d *Rig) Staked(kit, piece string) bool {
	for _, s := range d.Stands {
		if s.Lines > 0 && s.Kit == kit && (kit != "" || s.Piece == piece) {
			return true
		}
	}
	return false
}

// Stakes returns how many stakes the job takes, with a line each.
func (d *Rig) Stakes() int {
	n := 0
	for _, s := range d.Stands {
		n += 2 * s.Lines * s.Count
	}
	return n
}
