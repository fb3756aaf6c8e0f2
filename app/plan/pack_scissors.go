package plan

// scissorsRule packs scissors, and a side cutter for cable ties.
func scissorsRule() packRule {
	return thing("tool/scissors", "bag/tools", "Scissors and side cutter", "", true, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		return 1, "line, ribbon, cable ties", usual()
	})
}
