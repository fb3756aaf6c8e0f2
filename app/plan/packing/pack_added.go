package packing

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// addedRule packs the lines the user wrote.
var addedRule = rule{family: "added", bag: "bag/other",
	name: func(j job.Job, id string) string { return phrase.Field(j, "added/"+id, "text", id) },
	lines: func(d *rigging.Rig) []packed {
		var lines []packed
		for _, a := range d.Job.Added {
			if a.List == "pack" {
				lines = append(
					lines,
					packed{bagNamed(a.Bag), Line{Key: job.PackKey("added", a.ID), Name: a.Text, Need: max(1, a.Count),
						Reason: "your own line", Source: figures.Source{Text: "your own line", Mark: figures.Measured}}},
				)
			}
		}
		return lines
	}}
