package plan

// wipesRule packs wipes.
func wipesRule() packRule {
	return thing("supply/wipes", "bag/safety", "Wipes", "packs", false, func(d *draft) (int, string, Source) {
		if !d.anyBalloon() {
			return 0, "", Source{}
		}
		return 1, "hands, spray on the floor, sticky tables", usual()
	})
}
