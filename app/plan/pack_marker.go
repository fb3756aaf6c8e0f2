package plan

// markerRule packs labels and a marker.
var markerRule = packRule{family: "supply/labels", bag: "bag/tools", one: "Labels and marker", with: (*Rig).anyPiece,
	reason: "every bag says which piece and section it holds"}
