// Package rigging says which frames a job uses, what hangs on them, and whether bars, lines and feet hold it.
package rigging

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/calc/rig"
)

// Rig is a job's frames and what hangs on them.
type Rig struct {
	*count.Draft
	Hanging []Thing   // the signs and cloths of the kit
	Frames  []job.Kit // those in use: they carry a piece, sign or cloth; in the kit's order
	Stands  []Stand   // what stands on feet: these frames, columns and digits
}

// New finds the frames in use and what hangs on them.
func New(draft *count.Draft) *Rig {
	d := &Rig{Draft: draft, Hanging: things(draft.Job.Kit)}
	for _, k := range d.Job.Kit {
		if _, carries := d.OnFrame(k.ID); carries {
			d.Frames = append(d.Frames, k)
		}
	}
	d.Stands = d.stands()
	return d
}

// Thing is a sign or cloth of the kit.
type Thing struct {
	*job.Kit
	Sign  bool // a panel with letters on it is both
	Cover bool
	on    string // id of the frame it names; "" if it names none or one that is gone
}

// things returns the signs and cloths of a kit.
func things(kit []job.Kit) []Thing {
	var list []Thing
	for i := range kit {
		k := &kit[i]
		t := Thing{Kit: k, Sign: IsSign(*k), Cover: IsCover(*k)}
		if k.Count <= 0 || !t.Cover && !t.Sign {
			continue
		}
		for at := range kit {
			if frame := &kit[at]; frame.ID == k.Frame && frame.Kind == "frame" {
				t.on = frame.ID
			}
		}
		list = append(list, t)
	}
	return list
}

// May reports whether a thing may hang on a frame: the one that it names, or any if it names none.
func (t Thing) May(frame string) bool { return t.on == "" || t.on == frame }

// CoversOn returns the cloths and panels that may hang on a frame.
func (d *Rig) CoversOn(frame string) []Thing {
	var list []Thing
	for _, t := range d.Hanging {
		if t.Cover && t.May(frame) {
			list = append(list, t)
		}
	}
	return list
}

// load returns a sign or cloth as a load on a bar: at the place it names, else in the middle. A cloth spreads over its
// width, or over the whole span if its width is unknown.
func (t Thing) load(bar rig.Bar) rig.Load {
	load := bar.Along(t.Name, float64(float64(t.Count)*t.WeightG))
	load.AtMM = bar.SpanMM / 2
	if t.AtMM > 0 {
		load.AtMM = min(t.AtMM, bar.SpanMM)
	}
	load.Spread = !t.Sign
	if t.WidthMM > 0 {
		load.FromMM = max(0, load.AtMM-t.WidthMM/2)
		load.ToMM = min(bar.SpanMM, load.AtMM+t.WidthMM/2)
	}
	return load
}

// OnFrame returns the name of the first piece on a frame, else of the first sign or cloth that names the frame.
func (d *Rig) OnFrame(frame string) (string, bool) {
	for _, c := range d.Pieces {
		if c.Piece.Frame == frame {
			return c.Piece.Name, true
		}
	}
	for _, t := range d.Hanging {
		if t.on == frame {
			return t.Name, true
		}
	}
	return "", false
}

// IsSign reports whether a kit item hangs as a sign: by its name, or because it hangs on a frame and is not a cloth.
func IsSign(k job.Kit) bool {
	return k.Kind == "other" &&
		(k.Frame != "" && !IsCover(k) || phrase.HasWord(k.Name, "sign", "signs", "letters", "lettering", "banner"))
}

// BatteryPump returns the name of the first pump of the kit that needs no socket, "" without one.
func (d *Rig) BatteryPump() string {
	for _, k := range d.Job.Kit {
		if k.Count > 0 && OnBattery(k) {
			return k.Name
		}
	}
	return ""
}

// OnBattery reports whether a pump of the kit needs no socket, by its name.
func OnBattery(k job.Kit) bool {
	return k.Kind == "pump" && phrase.HasWord(k.Name, "battery", "batteries", "cordless", "rechargeable")
}

// IsCover reports whether a kit item is a cloth or panel for a frame, by its name.
func IsCover(k job.Kit) bool {
	return k.Kind == "other" &&
		phrase.HasWord(k.Name, "cloth", "cloths", "curtain", "curtains", "drape", "drapes", "panel", "panels")
}

// Signs returns the kit that hangs as signs.
func (d *Rig) Signs() []job.Kit {
	var list []job.Kit
	for _, t := range d.Hanging {
		if t.Sign {
			list = append(list, *t.Kit)
		}
	}
	return list
}
