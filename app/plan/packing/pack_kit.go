package packing

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// kitRule packs the user's own kit, but for the car and for frames that no piece stands on.
var kitRule = rule{family: "kit", bag: "bag/tools",
	name: func(j job.Job, id string) string { return phrase.Field(j, "kit/"+id, "name", id) },
	lines: func(d *rigging.Rig) []packed {
		var lines []packed
		for _, k := range d.Job.Kit {
			line := Line{Key: job.PackKey("kit", k.ID), Name: k.Name, Kit: true, Need: k.Count, Reason: "from your kit",
				Source: figures.Source{Text: "your kit", Mark: figures.Measured}}
			bag := "bag/tools"
			switch k.Kind {
			case "car":
				continue
			case "frame":
				piece, used := d.OnFrame(k.ID)
				if !used {
					continue
				}
				line.Reason = "carries " + piece
				bag = "bag/frames"
			case "pump":
				if d.Job.Brief.Power == "none" {
					line.Reason = "for filling at home; there is no power at the venue"
				}
				bag = "bag/air"
			case "ladder":
				bag = "bag/loose"
			default:
				if rigging.IsSign(k) || rigging.IsCover(k) {
					bag = "bag/frames"
				}
			}
			if line.Need > 0 {
				lines = append(lines, packed{bag, line})
			}
		}
		return lines
	}}
