package plan

// papersRule packs the printed plan: the one thing that needs no battery.
var papersRule = packRule{family: "paper/plan", bag: "bag/safety", one: "Printed plan", with: (*Rig).anyPiece,
	reason: "works without a battery"}
