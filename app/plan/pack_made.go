package plan

import "garlandry/app/job"

// madeRule packs what is made at home: sections and clusters in big clear bags, labelled with piece and section.
var madeRule = packRule{family: "made", bag: "bag/made",
	name: func(j job.Job, id string) string { return text(j, "piece/"+id, "name", id) + ", ready made" },
	lines: func(d *Rig) []packed {
		var lines []packed
		room := d.figures.row("bag/clusters")
		for _, c := range d.pieces {
			brought := int(float64(c.atHome()*float64(c.Balloons)) + 0.5)
			if brought == 0 {
				continue
			}
			line := PackLine{Key: "pack/made/" + c.Piece.ID, Name: c.Piece.Name + ", ready made", Unit: "bags",
				Need: bagsFor(d, c), Source: room.Source,
				Reason: count(brought, "balloon") + ", about " + number(
					roundTo(float64(c.atHome()*d.bulkL(c)), 10),
				) + " litres; label each bag with piece and section"}
			if c.joined && c.where == Home && len(c.Sections) > 0 {
				line.Unit, line.Need = "sections", len(c.Sections)
				line.Reason = count(c.Clusters, "cluster") + " joined into " + count(
					len(c.Sections),
					"section",
				) + "; label each with its piece and number"
			}
			line.Unit = unitOf(line.Need, line.Unit)
			lines = append(lines, packed{PackLine: line})
		}
		return lines
	}}

// bagsFor is how many big clear bags a piece made at home takes: as many as its room fills, and one for each section at
// least.
func bagsFor(d *Rig, c *counted) int {
	bags := up(float64(c.atHome()*d.bulkL(c)) / d.figures.get("bag/clusters"))
	if c.joined && c.where == Home {
		bags = max(bags, len(c.Sections))
	}
	return bags
}
