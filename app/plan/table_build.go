package plan

// baseTable says how hard clusters are pushed together and how far a hand can twist.
func baseTable() []Figure {
	const group = "Base"
	return []Figure{
		practice("base/push", group, "Push along the base, beside the usual one", 1, 0.05, 4, "times"),
		practice("base/most-duplets", group, "Most duplets that twist into a stand-in cluster", 4, 1, 8, "duplets"),
		practice("accents/spacing", group, "One accent cluster for every", 609.6, 100, 10000, "mm"),
	}
}

// tieTable says how many 260s tie things together.
func tieTable() []Figure {
	const group = "Ties"
	return []Figure{
		practice("ties/join", group, "260s to join one cluster to the base", 1, 0, 10, "ties"),
		practice("ties/accent", group, "260s for one accent cluster", 0.5, 0, 10, "ties"),
		practice("ties/fix-every", group, "A base is tied to its frame every", 609.6, 50, 10000, "mm"),
		practice("ties/ends", group, "260s more, for the ends of a base", 2, 0, 20, "ties"),
		remembered("ties/column", group, "260s to hold one column, foot and top", 2, 0, 50, "ties"),
		remembered("ties/table", group, "260s for one table piece or bouquet of air", 1, 0, 20, "ties"),
		remembered("ties/number", group, "260s for one balloon of a number frame", 0.25, 0, 2, "ties"),
		remembered("ties/free", group, "260s for one balloon of a free piece", 0.25, 0, 2, "ties"),
	}
}

// sectionTable says how long a base may be carried.
func sectionTable() []Figure {
	const group = "Sections and car"
	return []Figure{
		remembered("section/carry", group, "Longest base that two carry through a door", 2438.4, 300, 20000, "mm"),
		remembered("section/car", group, "Longest base a car takes, if yours is not in the kit", 1524, 300, 20000, "mm"),
		remembered("car/litres", group, "Room in a car, if yours is not in the kit", 1200, 50, 50000, "litres"),
		remembered("car/packing", group, "Share of the room that loose clusters fill", 0.55, 0.1, 1, "of 1"),
		remembered("bag/clusters", group, "Room in one big clear bag", 240, 20, 2000, "litres"),
	}
}

// shapeTable says how walls and number frames are filled.
func shapeTable() []Figure {
	const group = "Walls and numbers"
	return []Figure{
		remembered("wall/nest", group, "Strings of a wall reach into each other, in balloon diameters", 0.34108, 0, 1, "diameters"),
		remembered("number/width", group, "Width of a digit, as a share of its height", 0.6, 0.2, 1.5, "of 1"),
		remembered("number/stroke", group, "Stroke of a digit, as a share of its height", 0.2, 0.05, 0.5, "of 1"),
		remembered("number/pressed", group, "Balloons in a number frame stand apart, as a share of their diameter", 0.9, 0.4, 1.5, "of 1"),
	}
}

// breakageTable says how many balloons break.
func breakageTable() []Figure {
	const group = "Breakage"
	return []Figure{
		practice("breakage/practised", group, "Break in practised hands", 2.5, 0, 50, "%"),
		practice("breakage/beginner", group, "Break in beginners' hands", 5, 0, 50, "%"),
		remembered("breakage/outdoors", group, "More of them outdoors, in sun and wind", 3, 0, 50, "%"),
		remembered("breakage/covered", group, "More of them outdoors under cover", 1.5, 0, 50, "%"),
		remembered("breakage/rough", group, "More of them over grass, gravel or sand", 1, 0, 50, "%"),
		remembered("breakage/mirror", group, "More of a mirror finish", 3, 0, 50, "%"),
		remembered("breakage/small", group, "More of the smallest size", 1, 0, 50, "%"),
	}
}

// handsTable says how many people fit round a task.
func handsTable() []Figure {
	const group = "Hands"
	return []Figure{
		practice("hands/piece", group, "Most people on one piece", 4, 1, 20, "hands"),
		practice("hands/lift", group, "Hands for a frame, a cover, a sign or a base", 2, 1, 10, "hands"),
		practice("hands/filling", group, "People one electric pump serves", 1, 1, 10, "hands"),
		remembered("hands/ladder", group, "Work above this height wants a ladder", 2000, 1000, 4000, "mm"),
	}
}
