package plan

// markerRule packs labels and a marker.
func markerRule() packRule {
	return thing("supply/labels", "bag/tools", "Labels and marker", "", false, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		return 1, "every bag says which piece and section it holds", usual()
	})
}
