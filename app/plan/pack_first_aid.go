package plan

// firstAidRule packs a first-aid box.
var firstAidRule = packRule{family: "safety/first-aid", bag: "bag/safety", one: "First-aid box", kit: true,
	with: (*Rig).anyPiece, reason: "fingers and ladders"}
