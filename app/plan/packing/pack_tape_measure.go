package packing

import "garlandry/app/plan/rigging"

// tapeMeasureRule packs a tape measure.
var tapeMeasureRule = rule{family: "tool/tape-measure", bag: "bag/tools", one: "Tape measure", kit: true,
	with: (*rigging.Rig).AnyPiece, reason: "the room is never as drawn"}
