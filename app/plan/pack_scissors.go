package plan

// scissorsRule packs scissors, and a side cutter for cable ties.
var scissorsRule = packRule{family: "tool/scissors", bag: "bag/tools", one: "Scissors and side cutter",
	kit: true, with: (*Rig).anyPiece, reason: "line, ribbon, cable ties"}
