package plan

// trolleyRule packs a trolley.
func trolleyRule() packRule {
	return thing("tool/trolley", "bag/loose", "Trolley", "", true, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		if way := d.job.Brief.Parking; way != "" {
			return 1, "the way in: " + way, usual()
		}
		return 1, "the car seldom stands at the door", usual()
	})
}
