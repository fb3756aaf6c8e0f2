package plan

// steamerRule packs a steamer where a cloth hangs.
func steamerRule() packRule {
	return thing("tool/steamer", "bag/frames", "Steamer for cloths", "", true, func(d *draft) (int, string, Source) {
		for _, k := range d.job.Kit {
			if isCover(k) && says(k.Name, "cloth", "cloths", "curtain", "curtains", "drape", "drapes") {
				return 1, k.Name + " creases on the way", usual()
			}
		}
		return 0, "", Source{}
	})
}
