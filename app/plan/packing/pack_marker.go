package packing

import "garlandry/app/plan/rigging"

// markerRule packs labels and a marker.
var markerRule = rule{family: "supply/labels", bag: "bag/tools", one: "Labels and marker", with: (*rigging.Rig).AnyPiece,
	reason: "every bag says which piece and section it holds"}
