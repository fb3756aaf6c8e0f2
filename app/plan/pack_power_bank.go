package plan

// powerBankRule packs a power bank for the telephone that holds the plan.
var powerBankRule = packRule{family: "tool/power-bank", bag: "bag/air", one: "Phone power bank and cable",
	kit: true, with: (*Rig).anyPiece, reason: "the plan is on your phone all day"}
