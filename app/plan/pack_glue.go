package plan

// glueRule packs glue dots for the accents.
var glueRule = packRule{family: "supply/glue-dots", bag: "bag/fixings", one: "Glue dots", unit: "rolls",
	need: func(d *Rig) (int, string, *Source) {
		dots, roll := d.figures.row("supply/glue-dots"), d.figures.get("supply/glue-roll")
		accents := d.sum(func(c *counted) int { return c.Accents })
		return up(
			float64(float64(accents)*dots.Value) / roll,
		), number(dots.Value) + " for each of " + count(accents, "accent"), &dots.Source
	}}
