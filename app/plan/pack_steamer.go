package plan

// steamerRule packs a steamer where a cloth hangs.
var steamerRule = packRule{family: "tool/steamer", bag: "bag/frames", one: "Steamer for cloths", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		for _, k := range d.job.Kit {
			if isCover(k) && says(k.Name, "cloth", "cloths", "curtain", "curtains", "drape", "drapes") {
				return 1, k.Name + " creases on the way", &usual
			}
		}
		return 0, "", nil
	}}
