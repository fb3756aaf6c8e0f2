package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// glassesRule packs glasses for everyone who fills and twists.
var glassesRule = rule{
	family: "safety/glasses",
	bag:    "bag/safety",
	one:    "Safety glasses",
	kit:    true,
	with:   (*rigging.Rig).AnyBalloon,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		return len(d.Site), "a balloon that bursts while it is filled or twisted hits the face", &figures.Usual
	},
}
