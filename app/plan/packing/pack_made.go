package packing

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// madeRule packs what is made at home: sections and clusters in big clear bags, labelled with piece and section.
var madeRule = rule{family: "made", bag: "bag/made",
	name: func(j job.Job, id string) string { return phrase.Field(j, "piece/"+id, "name", id) + ", ready made" },
	lines: func(d *rigging.Rig) []packed {
		var lines []packed
		room := d.Figures.Row("bag/clusters")
		for _, c := range d.Pieces {
			brought := int(float64(c.AtHome()*float64(c.Balloons)) + 0.5)
			if brought == 0 {
				continue
			}
			line := Line{Key: job.PackKey("made", c.Piece.ID), Name: c.Piece.Name + ", ready made", Unit: "bags",
				Need: bagsFor(d, c), Source: room.Source,
				Reason: phrase.Count(brought, "balloon") + ", about " + phrase.Number(
					figures.RoundUpTo(float64(c.AtHome()*d.BulkL(c)), 10),
				) + " litres; label each bag with piece and section"}
			if c.Joined && !c.OnSite && len(c.Sections) > 0 {
				line.Unit, line.Need = "sections", len(c.Sections)
				line.Reason = phrase.Count(c.Clusters, "cluster") + " joined into " + phrase.Count(
					len(c.Sections),
					"section",
				) + "; label each with its piece and number"
			}
			line.Unit = phrase.Unit(line.Need, line.Unit)
			lines = append(lines, packed{Line: line})
		}
		return lines
	}}

// bagsFor is how many big clear bags a piece made at home takes: as many as its room fills, and one for each section at
// least.
func bagsFor(d *rigging.Rig, c *count.Counted) int {
	bags := figures.RoundUp(float64(c.AtHome()*d.BulkL(c)) / d.Figures.Get("bag/clusters"))
	if c.Joined && !c.OnSite {
		bags = max(bags, len(c.Sections))
	}
	return bags
}
