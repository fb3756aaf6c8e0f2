package plan

// tapeMeasureRule packs a tape measure.
var tapeMeasureRule = packRule{family: "tool/tape-measure", bag: "bag/tools", one: "Tape measure", kit: true,
	with: (*Rig).anyPiece, reason: "the room is never as drawn"}
