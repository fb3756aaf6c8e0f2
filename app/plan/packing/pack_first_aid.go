package packing

import "garlandry/app/plan/rigging"

// firstAidRule packs a first-aid box.
var firstAidRule = rule{family: "safety/first-aid", bag: "bag/safety", one: "First-aid box", kit: true,
	with: (*rigging.Rig).AnyPiece, reason: "fingers and ladders"}
