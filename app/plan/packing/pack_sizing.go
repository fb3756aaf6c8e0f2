package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// sizingRule packs a sizing box for what is filled: same size matters more than which size.
var sizingRule = rule{
	family: "tool/sizing-box",
	bag:    "bag/tools",
	one:    "Sizing box or template",
	kit:    true,
	with:   (*rigging.Rig).AnyBalloon,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		return 1, "balloons of one cluster must be equal; openings for " + openings(d), &figures.Usual
	},
}

// openings lists the diameters that balloons are sized to, smallest first.
func openings(d *rigging.Rig) string {
	var list []float64
	for _, b := range d.Balloons {
		for _, p := range b.Pieces {
			list = insertOnce(list, p.ToIn)
		}
	}
	return smallList(d, list)
}

// smallList writes diameters as a list: "4.5 in, 10 in and 16 in".
func smallList(d *rigging.Rig, list []float64) string {
	text := ""
	for i, toIn := range list {
		switch {
		case i > 0 && i == len(list)-1:
			text += " and "
		case i > 0:
			text += ", "
		}
		text += d.Small(toIn)
	}
	return text
}

func insertOnce(list []float64, x float64) []float64 {
	at := 0
	for at < len(list) && list[at] < x {
		at++
	}
	if at < len(list) && list[at] == x {
		return list
	}
	list = append(list, 0)
	copy(list[at+1:], list[at:])
	list[at] = x
	return list
}
