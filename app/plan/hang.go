package plan

import (
	"garlandry/app/job"
	"garlandry/calc/rig"
)

// thing is a sign or cloth of the kit.
type thing struct {
	*job.Kit
	sign  bool // a panel with letters on it is both
	cover bool
	on    string // the frame of the kit that it names; empty if it names none, or one that is gone
}

// things is the signs and cloths of the kit, worked out once.
func (d *draft) things() []thing {
	if d.hanging != nil {
		return d.hanging
	}
	d.hanging = []thing{}
	for i := range d.job.Kit {
		k := &d.job.Kit[i]
		t := thing{Kit: k, sign: isSign(*k), cover: isCover(*k)}
		if k.Count <= 0 || !t.cover && !t.sign {
			continue
		}
		for at := range d.job.Kit {
			if frame := &d.job.Kit[at]; frame.ID == k.Frame && frame.Kind == "frame" {
				t.on = frame.ID
			}
		}
		d.hanging = append(d.hanging, t)
	}
	return d.hanging
}

// may reports whether a thing may hang on a frame: the one that it names, or any if it names none.
func (t thing) may(frame string) bool { return t.on == "" || t.on == frame }

// coversOn is the cloths and panels that may hang on a frame.
func (d *draft) coversOn(frame string) []thing {
	var list []thing
	for _, t := range d.things() {
		if t.cover && t.may(frame) {
			list = append(list, t)
		}
	}
	return list
}

// frameKeys is the cards of the frames that a sign or cloth may hang on.
func (d *draft) frameKeys(t thing) []string {
	var keys []string
	for _, k := range d.framesUsed() {
		if t.may(k.ID) {
			keys = append(keys, "card/frame/"+k.ID)
		}
	}
	return keys
}

// load is a sign or cloth as it pulls on a bar: at the place it names or else at the middle; a cloth of known width
// is spread over that, any other over the whole span.
func (t thing) load(bar rig.Bar) rig.Load {
	load := bar.Along(t.Name, float64(float64(t.Count)*t.WeightG))
	load.AtMM = bar.SpanMM / 2
	if t.AtMM > 0 {
		load.AtMM = min(t.AtMM, bar.SpanMM)
	}
	load.Spread = !t.sign
	if t.WidthMM > 0 {
		load.FromMM = max(0, load.AtMM-t.WidthMM/2)
		load.ToMM = min(bar.SpanMM, load.AtMM+t.WidthMM/2)
	}
	return load
}
