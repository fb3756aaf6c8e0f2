package plan

// firstAidRule packs a first-aid box.
func firstAidRule() packRule {
	return thing("safety/first-aid", "bag/safety", "First-aid box", "", true, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		return 1, "fingers and ladders", usual()
	})
}
