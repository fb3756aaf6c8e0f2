package packing

import "garlandry/app/plan/rigging"

// powerBankRule packs a power bank for the telephone that holds the plan.
var powerBankRule = rule{family: "tool/power-bank", bag: "bag/air", one: "Phone power bank and cable",
	kit: true, with: (*rigging.Rig).AnyPiece, reason: "the plan is on your phone all day"}
