package plan

// tableRule packs a table to work at when clusters are made on site.
func tableRule() packRule {
	return thing("tool/table", "bag/loose", "Table for working", "", true, func(d *draft) (int, string, Source) {
		if !d.any(func(c counted) bool { return c.where == Site && c.Balloons > 0 }) {
			return 0, "", Source{}
		}
		return 1, "balloons are filled and tied on site", usual()
	})
}
