package plan

// tableRule packs a table to work at when clusters are made on site.
var tableRule = packRule{family: "tool/table", bag: "bag/loose", one: "Table for working", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		if !d.any(func(c *counted) bool { return c.where == Site && c.Balloons > 0 }) {
			return 0, "", nil
		}
		return 1, "balloons are filled and tied on site", &usual
	}}
