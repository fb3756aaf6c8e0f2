package plan

// leadRule packs an extension lead unless there is no power at all.
func leadRule() packRule {
	return thing("tool/lead", "bag/air", "Extension lead", "", true, func(d *draft) (int, string, Source) {
		switch {
		case !d.anyBalloon() || d.job.Brief.Power == "none":
			return 0, "", Source{}
		case d.job.Brief.Power == "far":
			return 2, "the socket is far away; tape the lead down where people walk", usual()
		}
		return 1, "the socket is seldom where the piece is", usual()
	})
}
