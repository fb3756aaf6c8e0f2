package packing

import "garlandry/app/plan/rigging"

// scissorsRule packs scissors, and a side cutter for cable ties.
var scissorsRule = rule{family: "tool/scissors", bag: "bag/tools", one: "Scissors and side cutter",
	kit: true, with: (*rigging.Rig).AnyPiece, reason: "line, ribbon, cable ties"}
