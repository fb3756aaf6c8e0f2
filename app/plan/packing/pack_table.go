package packing

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// tableRule packs a table to work at when clusters are made on site.
var tableRule = rule{family: "tool/table", bag: "bag/loose", one: "Table for working", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		if !d.Any(func(c *count.Counted) bool { return c.OnSite && c.Balloons > 0 }) {
			return 0, "", nil
		}
		return 1, "balloons are filled and tied on site", &figures.Usual
	}}
