package plan

// tapeMeasureRule packs a tape measure.
func tapeMeasureRule() packRule {
	return thing("tool/tape-measure", "bag/tools", "Tape measure", "", true, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		return 1, "the room is never as drawn", usual()
	})
}
