package plan

// broomRule packs a broom and dustpan.
var broomRule = packRule{family: "tool/broom", bag: "bag/clear", one: "Broom and dustpan", kit: true,
	with: (*Rig).anyBalloon, reason: "every burst piece is picked up at once"}
