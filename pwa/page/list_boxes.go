package page

import (
	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// boxFields are the fields of a box; a door has the first four.
var boxFields = []string{"name", "width_mm", "height_mm", "at_mm", "up_mm", "front"}

// boxesList is what stands in the room beside the pieces.
var boxesList = list{
	noun: "box", address: address.Boxes, title: "Doors, tables, steps", what: "a door, table or steps",
	lead:   "Outlines in the room's picture. Pieces keep clear of doors.",
	teach:  "Add what pieces go around or stand on.",
	fields: boxFields,
	entries: func(j *job.Job) []entry {
		units := measure.System(j.Brief.Units)
		var all []entry
		for _, b := range j.Boxes {
			all = append(all, entry{id: b.ID, title: b.Name, below: measure.FormatLength(b.WidthMM, units) + " x " +
				measure.FormatLength(b.HeightMM, units) + ", middle at " + measure.FormatLength(b.AtMM, units), order: b.Order})
		}
		return all
	},
	kind: "kind", asked: func(kind string) []string {
		if kind == "door" {
			return boxFields[:4]
		}
		return boxFields
	},
	usual: usualBox,
}

// usualBox gives a new box the size that such a thing often has. Common practice, no source.
func usualBox(kind string) []job.Change {
	put := func(name string, wideMM, highMM float64) []job.Change {
		return []job.Change{job.Put("box/x", "name", name), job.Put("box/x", "width_mm", wideMM),
			job.Put("box/x", "height_mm", highMM)}
	}
	switch kind {
	case "door":
		return put("Door", 900, 2000)
	case "table":
		return put("Table", 1800, 750)
	case "steps":
		return put("Steps", 1500, 510)
	}
	return nil
}
