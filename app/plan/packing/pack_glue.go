package packing

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// glueRule packs glue dots for the accents.
var glueRule = rule{family: "supply/glue-dots", bag: "bag/fixings", one: "Glue dots", unit: "rolls",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		dots, roll := d.Figures.Row("supply/glue-dots"), d.Figures.Get("supply/glue-roll")
		accents := d.Sum(func(c *count.Counted) int { return c.Accents })
		return figures.RoundUp(
			float64(float64(accents)*dots.Value) / roll,
		), phrase.Number(dots.Value) + " for each of " + phrase.Count(accents, "accent"), &dots.Source
	}}
