package packing

import "garlandry/app/plan/rigging"

// wipesRule packs wipes.
var wipesRule = rule{family: "supply/wipes", bag: "bag/safety", one: "Wipes", unit: "packs",
	with: (*rigging.Rig).AnyBalloon, reason: "hands, spray on the floor, sticky tables"}
