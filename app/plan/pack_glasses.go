package plan

// glassesRule packs glasses for everyone who fills and twists.
func glassesRule() packRule {
	return thing("safety/glasses", "bag/safety", "Safety glasses", "", true, func(d *draft) (int, string, Source) {
		if !d.anyBalloon() {
			return 0, "", Source{}
		}
		return len(d.site), "a balloon that bursts while it is filled or twisted hits the face", usual()
	})
}
