package figures

import (
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

// entry is one value of a trade table: what it is, its default with the range a person may set, and its mark.
type entry struct {
	key, label         string
	value, least, most float64
	unit               string
	mark               Mark
}

// sheet is the entries under one heading.
type sheet struct {
	group   string
	entries []entry
}

// sheets is every table, in the order in which a page lists them. A new figure is one line here.
var sheets = []sheet{
	{"Base", []entry{ // how hard clusters are pushed together and how far a hand can twist
		{"base/push", "Push along the base, beside the usual one", 1, 0.05, 4, "times", CommonPractice},
		{"base/most-duplets", "Most duplets that twist into a substitute cluster", 4, 1, 8, "duplets", CommonPractice},
		{"accents/spacing", "One accent cluster for every", 609.6, 100, 10000, "mm", CommonPractice},
	}},
	{"Ties", []entry{ // how many 260s tie things together
		{"ties/join", "260s to join one cluster to the base", 1, 0, 10, "ties", CommonPractice},
		{"ties/accent", "260s for one accent cluster", cluster.TiesPerAccent, 0, 10, "ties", CommonPractice},
		{"ties/fix-every", "A base is tied to its frame every", 609.6, 50, 10000, "mm", CommonPractice},
		{"ties/ends", "260s more, for the ends of a base", 2, 0, 20, "ties", CommonPractice},
		{"ties/column", "260s to hold one column, foot and top", cluster.TiesPerColumn, 0, 50, "ties", FromMemory},
		{"ties/table", "260s for one table piece or bouquet of air", 1, 0, 20, "ties", FromMemory},
		{"ties/number", "260s for one balloon of a number frame", 0.25, 0, 2, "ties", FromMemory},
		{"ties/free", "260s for one balloon of a free piece", 0.25, 0, 2, "ties", FromMemory},
	}},
	{"Sections and car", []entry{ // how long a base may be carried
		{"section/carry", "Longest base that two carry through a door", 2438.4, 300, 20000, "mm", FromMemory},
		{"section/car", "Longest base a car takes, if yours is not in the kit", 1524, 300, 20000, "mm", FromMemory},
		{"car/litres", "Room in a car, if yours is not in the kit", 1200, 50, 50000, "litres", FromMemory},
		{"car/packing", "Share of the room that loose clusters fill", 0.55, 0.1, 1, "of 1", FromMemory},
		{"bag/clusters", "Room in one big clear bag", 240, 20, 2000, "litres", FromMemory},
	}},
	{group: "Rubber"}, // its entries are the sizes of calc/latex
	{"Walls and numbers", []entry{ // how walls and number frames are filled
		{"wall/nest", "Strings of a wall reach into each other, in balloon diameters", cluster.SideBySideReach, 0, 1,
			"diameters", FromMemory},
		{"number/width", "Width of a digit, as a share of its height", 0.6, 0.2, 1.5, "of 1", FromMemory},
		{"number/stroke", "Stroke of a digit, as a share of its height", 0.2, 0.05, 0.5, "of 1", FromMemory},
		{"number/pressed", "Balloons in a number frame stand apart, as a share of their diameter", 0.9, 0.4, 1.5, "of 1",
			FromMemory},
	}},
	{"Helium and heat", []entry{ // how a builder's own balloons differ from the usual ones
		{"float/own", "Your balloons float, beside the usual hours", 1, 0.1, 30, "times", CommonPractice},
		{"heat/own", "Your balloons grow in warmth, beside the usual growth", 1, latex.LeastGrowth, latex.MostGrowth,
			"times", CommonPractice},
	}},
	{"Bars and lines", []entry{ // when a bar or a line is too weak
		{"bar/visible", "A dip of a bar shows from its span divided by", 100, 50, 1000, "parts", CommonPractice},
		{"bar/useless", "A dip of a bar is too much from its span divided by", 50, 10, 1000, "parts", CommonPractice},
		{"line/strength", "One fishing line breaks at", 90, 5, 5000, "N", FromMemory},
	}},
	{"Breakage", []entry{ // how many balloons break
		{"breakage/practised", "Break in practised hands", 2.5, 0, 50, "%", CommonPractice},
		{"breakage/beginner", "Break in beginners' hands", 5, 0, 50, "%", CommonPractice},
		{"breakage/outdoors", "More of them outdoors, in sun and wind", 3, 0, 50, "%", FromMemory},
		{"breakage/covered", "More of them outdoors under cover", 1.5, 0, 50, "%", FromMemory},
		{"breakage/rough", "More of them over grass, gravel or sand", 1, 0, 50, "%", FromMemory},
		{"breakage/mirror", "More of a mirror finish", 3, 0, 50, "%", FromMemory},
		{"breakage/small", "More of the smallest size", 1, 0, 50, "%", FromMemory},
	}},
	{group: "Minutes"}, // its entries are worked out from [works]
	{"Hands", []entry{ // how many people fit round a task
		{"hands/piece", "Most people on one piece", 4, 1, 20, "hands", CommonPractice},
		{"hands/lift", "Hands for a frame, a cover, a sign or a base", 2, 1, 10, "hands", CommonPractice},
		{"hands/filling", "People one electric pump serves", 1, 1, 10, "hands", CommonPractice},
		{"hands/doorway", "Two pass each other with their arms full in a doorway from", 1200, 500, 5000, "mm", FromMemory},
		{"hands/ladder", "Work above this height wants a ladder", 2000, 1000, 4000, "mm", FromMemory},
	}},
	{"Clock", clockEntries()},
	{group: "How far times stray"}, // its entries are those of [WorkKinds]
	{"Supplies", []entry{ // how far the supplies go
		{"supply/glue-dots", "Glue dots for one accent cluster", 2, 0, 20, "dots", FromMemory},
		{"supply/glue-roll", "Glue dots on one roll", 100, 10, 2000, "dots", FromMemory},
		{"supply/shine", "Length of base one can of shine spray covers", 9144, 1000, 100000, "mm", FromMemory},
		{"supply/bin-bag", "Balloons that one bin bag takes when burst or flat", 100, 10, 2000, "balloons", FromMemory},
		{"supply/ribbon", "Ribbon for one floating balloon", 1.5, 0.2, 20, "m", FromMemory},
		{"supply/ribbon-g", "A metre of ribbon weighs", 1, 0, 20, "g", FromMemory},
		{"supply/cylinder-l", "A helium cylinder would hold of water", 10, 0.2, 200, "litres", FromMemory},
		{"supply/cylinder-bar", "Its gauge reads when full", 200, 1, 320, "bar", FromMemory},
		{"supply/cable-ties", "Cable ties for one frame", 10, 0, 200, "ties", FromMemory},
		{"supply/hook-every", "A removable hook for every length of base on a wall", 609.6, 100, 10000, "mm", FromMemory},
		{"supply/foot-weights", "Weights for the feet of one frame indoors", 2, 0, 50, "weights", FromMemory},
		{"supply/foot-weights-out", "Weights for the feet of one frame outdoors", 6, 0, 50, "weights", FromMemory},
		{"supply/foot-weight-kg", "One weight for feet", 10, 1, 50, "kg", FromMemory},
		{"supply/column-foot", "The foot of a column is across", 450, 150, 2000, "mm", FromMemory},
		{"supply/gust", "Strongest gust that is weighed down for outdoors", 5, 0, 30, "m/s", FromMemory},
		{"supply/clamps", "Clamps for one frame", 4, 0, 50, "clamps", FromMemory},
	}},
}
