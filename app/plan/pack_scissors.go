package plan

// scissorsRule packs scissors, and a side cutter for cable ties.
var scissorsRule = packRule{family: "tool/scissors", bag: "bag/tools", one: "Scissors and side cutter",
	kit: true, with: (*draft).anyPiece, reason: "line, ribbon, cable ties"}
