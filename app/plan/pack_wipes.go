package plan

// wipesRule packs wipes.
var wipesRule = packRule{family: "supply/wipes", bag: "bag/safety", one: "Wipes", unit: "packs",
	with: (*Rig).anyBalloon, reason: "hands, spray on the floor, sticky tables"}
