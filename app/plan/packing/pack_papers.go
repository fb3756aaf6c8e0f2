package packing

import "garlandry/app/plan/rigging"

// papersRule packs the printed plan: the one thing that needs no battery.
var papersRule = rule{family: "paper/plan", bag: "bag/safety", one: "Printed plan", with: (*rigging.Rig).AnyPiece,
	reason: "works without a battery"}
