package rigging

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// Stand is what stands on feet of its own: a frame of the kit, a column or a digit.
type Stand struct {
	Name  string
	Kit   string // id in the kit; "" if it names none
	Piece string // id of the column or number frame; "" of a frame
	Count int    // how many of them

	// Known reports whether its measures are known. Without them wind and leaning do not count. Guessed ones are those
	// of the figures.
	Known, Guessed bool
	// Weights are those on the feet of one, Lines those to stakes in front of one, and as many behind.
	Weights, Lines int
	// More reports whether that is more weights than usual, because of wind or of somebody leaning on it.
	More bool
	// Tip is how it stands with them in the safe gust, see [rig.SafeGustMPS].
	Tip rig.Tip

	frame rig.Frame // one of them, nothing on its feet
	push  rig.Push  // indoors
	usual int       // weights
	lined bool      // lines can hold it
	feet  int       // under which the weights go in equal parts: two of a frame, else one
}

// leastSolidity is the solidity of a bare frame.
const leastSolidity = 0.1

// stands lists what stands on feet, frames of the kit first.
func (d *Rig) stands() []Stand {
	var list []Stand
	for _, k := range d.Frames {
		if k.Kind == "frame" || !d.carriesOwn(k) {
			list = append(list, d.frameStand(k))
		}
	}
	for _, c := range d.Pieces {
		k, _ := d.Job.KitItem(c.Piece.Frame)
		if c.Fix.Count == 0 || c.Kind.Stand == "" || k.Kind == "frame" {
			continue
		}
		own, named := d.ownStand(c, k)
		stand := d.digitStand
		if c.Kind.OnPole {
			stand = d.columnStand
		}
		s := stand(c, own)
		if !named {
			s.Kit = ""
		}
		list = append(list, s)
	}
	for i := range list {
		d.hold(&list[i])
	}
	return list
}

// ownStand returns the stand of the kit under a column or digit: the one that its piece names, else any of its kind.
func (d *Rig) ownStand(c *count.Counted, k job.Kit) (own job.Kit, named bool) {
	if k.ID != "" {
		return k, true
	}
	for _, free := range d.Job.Kit {
		if free.Kind == c.Kind.Stand && free.Count > 0 {
			return free, false
		}
	}
	return job.Kit{}, false
}

// carriesOwn reports whether a stand of the kit carries a column or digits, which count as stands.
func (d *Rig) carriesOwn(k job.Kit) bool {
	for _, c := range d.Pieces {
		if c.Piece.Frame == k.ID && c.Kind.Stand != "" && c.Fix.Count > 0 {
			return true
		}
	}
	return false
}

// frameStand returns a frame of the kit. Its face is what hangs on it: all of it if cloth, panels or a wall close it,
// else the outline of its garlands, which reach over the bars by half their width.
func (d *Rig) frameStand(k job.Kit) Stand {
	wide, high, guessed := d.sizeOf(k)
	closed := len(d.CoversOn(k.ID)) > 0
	band, area := 0.0, 0.0
	for _, c := range d.Pieces {
		if c.Piece.Frame != k.ID {
			continue
		}
		closed = closed || c.Kind.Covers && c.Balloons > 0
		if c.Joined && c.Balloons > 0 {
			size := cluster.Measure(c.Recipe, d.Push)
			band = max(band, size.WidthMM)
			area += float64(c.LengthMM * size.WidthMM)
		}
	}
	s := Stand{Name: k.Name, Kit: k.ID, Count: max(1, k.Count), Known: wide > 0 && high > 0, Guessed: guessed,
		lined: true, usual: int(d.Figures.Get(d.FeetKey())), feet: 2,
		push: rig.Push{PushN: d.Figures.Get("stand/lean-n"), PushAtMM: min(d.Figures.Get("stand/lean-at"), high)}}
	s.frame = d.feet(k, rig.Frame{WidthMM: wide, HeightMM: high, MassG: d.ownMassG(k, "stand/frame-kg"), Solidity: 1},
		"stand/feet-depth")
	if !closed && s.Known {
		s.frame.WidthMM, s.frame.HeightMM = wide+band, high+band/2
		s.frame.Solidity = min(1, max(leastSolidity, area/float64(s.frame.WidthMM*s.frame.HeightMM)))
	}
	return s
}

// sizeOf returns the width and height of a frame. Outdoors it guesses what the kit does not say, because the wind needs
// it.
func (d *Rig) sizeOf(k job.Kit) (wide, high float64, guessed bool) {
	wide, high = k.WidthMM, k.HeightMM
	if guessed = d.Outdoors() && (wide <= 0 || high <= 0); guessed {
		wide = max(wide, d.Figures.Get("stand/frame-wide"))
		high = max(high, d.Figures.Get("stand/frame-high"))
	}
	return wide, high, guessed
}

// columnStand returns the columns of a piece, on a stand of the kit if it names one.
func (d *Rig) columnStand(c *count.Counted, k job.Kit) Stand {
	across := cluster.WidthMM(c.Recipe, d.Push)
	s := d.bumped(c, k)
	s.frame = d.feet(k, rig.Frame{WidthMM: across, DepthMM: across, HeightMM: max(c.Piece.HeightMM, k.HeightMM),
		MassG: d.ownMassG(k, "stand/column-kg") + d.MassG(c)/float64(s.Count), Solidity: 1, Round: true},
		"supply/column-foot")
	s.Known = c.Clusters > 0 && s.frame.HeightMM > 0
	return s
}

// digitStand returns the digits of a number frame, in a frame of the kit if it names one.
func (d *Rig) digitStand(c *count.Counted, k job.Kit) Stand {
	high := max(c.Piece.HeightMM, k.HeightMM)
	wide := max(k.WidthMM, float64(high*d.Figures.Get("number/width")))
	area := 0.0
	for _, b := range c.By {
		area += float64(float64(b.Count) * 1e6 * rig.DiscM2(b.ToIn*measure.MMPerInch))
	}
	s := d.bumped(c, k)
	s.Known = high > 0
	s.frame = d.feet(k, rig.Frame{WidthMM: wide, HeightMM: high,
		MassG: d.ownMassG(k, "stand/digit-kg") + d.MassG(c)/float64(s.Count)}, "stand/digit-feet")
	s.frame.Solidity = min(1, max(leastSolidity, area/float64(float64(s.Count)*wide*high)))
	return s
}

// bumped returns the stands of a piece that people bump into rather than lean on.
func (d *Rig) bumped(c *count.Counted, k job.Kit) Stand {
	return Stand{Name: c.Piece.Name, Kit: k.ID, Piece: c.Piece.ID, Count: c.Fix.Count, lined: true,
		usual: int(d.Figures.Get("supply/stand-weights")), feet: 1,
		push: rig.Push{PushN: d.Figures.Get("stand/bump-n"),
			PushAtMM: min(d.Figures.Get("stand/lean-at"), max(c.Piece.HeightMM, k.HeightMM))}}
}

// feet sets the feet of a frame: those of the kit, else a figure from front to back and its face from side to side.
func (d *Rig) feet(k job.Kit, f rig.Frame, depth string) rig.Frame {
	f.Friction = d.friction()
	f.BaseDepthMM, f.BaseWidthMM = k.FeetDepthMM, k.FeetWidthMM
	if !(f.BaseDepthMM > 0) {
		f.BaseDepthMM = d.Figures.Get(depth)
	}
	if !(f.BaseWidthMM > 0) {
		f.BaseWidthMM = f.WidthMM
		if f.Round {
			f.BaseWidthMM = f.BaseDepthMM
		}
	}
	return f
}

// ownMassG returns the weight of a stand of the kit, or the figure if it was not weighed.
func (d *Rig) ownMassG(k job.Kit, figure string) float64 {
	if k.WeightG > 0 {
		return max(k.WeightG, 100)
	}
	return float64(1000 * d.Figures.Get(figure))
}
