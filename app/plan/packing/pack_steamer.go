package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// steamerRule packs a steamer where a cloth hangs.
var steamerRule = rule{family: "tool/steamer", bag: "bag/frames", one: "Steamer for cloths", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		for _, k := range d.Job.Kit {
			if rigging.IsCover(k) && phrase.HasWord(k.Name, "cloth", "cloths", "curtain", "curtains", "drape", "drapes") {
				return 1, k.Name + " creases on the way", &figures.Usual
			}
		}
		return 0, "", nil
	}}
