package plan

// broomRule packs a broom and dustpan.
func broomRule() packRule {
	return thing("tool/broom", "bag/clear", "Broom and dustpan", "", true, func(d *draft) (int, string, Source) {
		if !d.anyBalloon() {
			return 0, "", Source{}
		}
		return 1, "every burst piece is picked up at once", usual()
	})
}
