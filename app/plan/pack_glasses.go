package plan

// glassesRule packs glasses for everyone who fills and twists.
var glassesRule = packRule{
	family: "safety/glasses",
	bag:    "bag/safety",
	one:    "Safety glasses",
	kit:    true,
	with:   (*Rig).anyBalloon,
	need: func(d *Rig) (int, string, *Source) {
		return len(d.site), "a balloon that bursts while it is filled or twisted hits the face", &usual
	},
}
