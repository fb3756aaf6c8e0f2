package plan

import "garlandry/app/job"

// addedRule packs the lines the user wrote.
var addedRule = packRule{family: "added", bag: "bag/other",
	name: func(j job.Job, id string) string { return text(j, "added/"+id, "text", id) },
	lines: func(d *Rig) []packed {
		var lines []packed
		for _, a := range d.job.Added {
			if a.List == "pack" {
				lines = append(
					lines,
					packed{bagNamed(a.Bag), PackLine{Key: "pack/added/" + a.ID, Name: a.Text, Need: max(1, a.Count),
						Reason: "your own line", Source: Source{Text: "your own line", Mark: Measured}}},
				)
			}
		}
		return lines
	}}
