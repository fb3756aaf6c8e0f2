package plan

import "garlandry/app/job"

// kitRule packs the user's own kit, but for the car and for frames that no piece stands on.
var kitRule = packRule{family: "kit", bag: "bag/tools",
	name: func(j job.Job, id string) string { return text(j, "kit/"+id, "name", id) },
	lines: func(d *Rig) []packed {
		var lines []packed
		for _, k := range d.job.Kit {
			line := PackLine{Key: "pack/kit/" + k.ID, Name: k.Name, Kit: true, Need: k.Count, Reason: "from your kit",
				Source: Source{Text: "your kit", Mark: Measured}}
			bag := "bag/tools"
			switch k.Kind {
			case "car":
				continue
			case "frame":
				piece, used := d.onFrame(k.ID)
				if !used {
					continue
				}
				line.Reason = "carries " + piece
				bag = "bag/frames"
			case "pump":
				if d.job.Brief.Power == "none" {
					line.Reason = "for filling at home; there is no power at the venue"
				}
				bag = "bag/air"
			case "ladder":
				bag = "bag/loose"
			default:
				if isSign(k) || isCover(k) {
					bag = "bag/frames"
				}
			}
			if line.Need > 0 {
				lines = append(lines, packed{bag, line})
			}
		}
		return lines
	}}
