package task

import (
	"garlandry/app/job"
	"garlandry/app/plan/rigging"
)

// frameRule adds the cards for putting a frame up.
var frameRule = rule{
	family: FamilyFrame,
	place:  Site,
	noun:   "kit",
	title:  "Put up ",
	cards: func(d *draft, r *rule) {
		for _, k := range d.Frames {
			c := r.card(d, k.ID, k.Name)
			c.Steps = []string{d.frameOrder(k)}
			if k.WidthMM > 0 && d.HasBar(k) {
				c.Steps = append(c.Steps, "Set the posts "+d.Length(k.WidthMM)+" apart. "+d.tested(k))
			}
			held := d.StandSteps(k.ID, "")
			if len(held) == 0 {
				held = []string{"Weigh down the feet before you hang anything on it."}
			}
			c.Steps = append(append(c.Steps, "Level it both ways."), held...)
			c.Steps = append(c.Steps, "Shake it gently. If it rocks, add weight or move it.")
			if s, known := d.Sag(k); known {
				c.Steps = append(c.Steps, s.Words)
				c.Working = s.Lines
				c.care(bar)
			}
			d.frameHands(c, k)
			c.After = []Ref{FamilyUnload.Only(), FamilyLook.Only()}
			c.care(lifting, exits)
			if d.Outdoors() {
				c.care(wind)
			}
			if d.Staked(k.ID, "") {
				c.care(stakes)
			}
			c.Piece, c.Priority = d.firstOn(k.ID)
		}
	},
}

// frameHands sets how long a frame takes and with how many hands: a column stand or number frame takes one person.
func (d *draft) frameHands(c *Card, k job.Kit) {
	n := float64(max(1, k.Count))
	if rigging.Upright(k) {
		c.takes(d.effort(Site, "stand", n))
		d.hands(c, 1, d.pair())
		return
	}
	c.takes(d.together(Site, "frame", n))
	d.hands(c, d.pair(), d.pair())
}

// frameOrder says in which order a frame's parts go up.
func (d *draft) frameOrder(k job.Kit) string {
	switch {
	case k.Kind == "pole":
		return "Foot first, then the pole. Push every joint home."
	case k.Kind == "digits":
		return "Put each digit together and stand it on its feet, front to where people will see it."
	case d.HasBar(k):
		return "Two of you: feet first, then posts, then the top bar."
	}
	return "Two of you: feet first, then the hoop. Push every joint home."
}

// tested says up to what width a frame's top bar was tested, and what to do where it is set wider.
func (d *draft) tested(k job.Kit) string {
	switch {
	case k.TestedMM >= k.WidthMM:
		return "The top bar is tested up to " + d.Length(k.TestedMM) + "; set it no wider."
	case k.TestedMM > 0:
		return "Careful: the top bar is tested up to " + d.Length(k.TestedMM) +
			" only. Set it no wider, or test it at this width first."
	}
	return "Careful: the top bar was never tested. Test it at this width before you hang anything on it."
}

// firstOn finds the piece of highest priority on a frame. The frame's card takes over its priority.
func (d *draft) firstOn(frame string) (piece, priority string) {
	for _, want := range []string{"must", "should", "could"} {
		for _, c := range d.Pieces {
			if c.Piece.Frame == frame && c.Piece.Priority == want {
				return c.Piece.ID, want
			}
		}
	}
	return "", "must"
}

// frameCards refers to the cards of the frames that a sign or cloth may hang on.
func (d *draft) frameCards(t rigging.Thing) []Ref {
	var refs []Ref
	for _, k := range d.Frames {
		if t.May(k.ID) {
			refs = append(refs, FamilyFrame.Of(k.ID))
		}
	}
	return refs
}
