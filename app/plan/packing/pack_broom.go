package packing

import "garlandry/app/plan/rigging"

// broomRule packs a broom and dustpan.
var broomRule = rule{family: "tool/broom", bag: "bag/clear", one: "Broom and dustpan", kit: true,
	with: (*rigging.Rig).AnyBalloon, reason: "every burst piece is picked up at once"}
