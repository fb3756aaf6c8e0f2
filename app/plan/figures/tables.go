package figures

import (
	"garlandry/calc/cargo"
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/rig"
)

// entry is one value of a trade table: its default, its range and its mark.
type entry struct {
	key, label         string
	value, least, most float64
	unit               string
	mark               Mark
}

// sheet is a heading with its entries.
type sheet struct {
	group   string
	entries []entry
}

// sheets lists every table in the order of the page. A new figure is one line here.
var sheets = []sheet{
	{"Base", []entry{ // how hard clusters are pushed together and how far a hand can twist
		{"base/push", "Push along the base, compared with usual", 1, 0.05, 4, "times", CommonPractice},
		{"base/most-duplets", "Most duplets that twist into a substitute cluster", 4, 1, 8, "duplets", CommonPractice},
		{"accents/spacing", "Length of base for one accent", 609.6, 100, 10000, "mm", CommonPractice},
		{"layers/spacing", "Length of base for one cluster of a layer", 304.8, 50, 10000, "mm", FromMemory},
	}},
	{"Ties", []entry{ // how many 260s tie things together
		{"ties/join", "260s to join one cluster to the base", 1, 0, 10, "ties", CommonPractice},
		{"ties/accent", "260s for one accent cluster", cluster.TiesPerAccent, 0, 10, "ties", CommonPractice},
		{"ties/layer", "260s for one cluster of a layer, tied by pairs or halves", 0.5, 0, 10, "ties", CommonPractice},
		{"ties/glue-dots", "Glue dots that hold one cluster", 4, 0, 50, "dots", FromMemory},
		{"ties/bases", "Extra 260s where two bases meet", 1, 0, 20, "ties", CommonPractice},
		{"ties/fix-every", "Distance between ties to the frame", 609.6, 50, 10000, "mm", CommonPractice},
		{"ties/ends", "Extra 260s for the ends of a base", 2, 0, 20, "ties", CommonPractice},
		{"ties/column", "260s to hold one column, foot and top", cluster.TiesPerColumn, 0, 50, "ties", FromMemory},
		{"ties/table", "260s for one table piece or bouquet of air", 1, 0, 20, "ties", FromMemory},
		{"ties/number", "260s for one balloon of a number frame", 0.25, 0, 2, "ties", FromMemory},
		{"ties/free", "260s for one balloon of a free piece", 0.25, 0, 2, "ties", FromMemory},
	}},
	{"Sections and car", []entry{ // how long a base may be carried
		{"section/carry", "Longest base two people carry through a door", 2438.4, 300, 20000, "mm", FromMemory},
		{"section/car", "Longest base a car takes, if yours is not in the kit", 1524, 300, 20000, "mm", FromMemory},
		{"car/litres", "Room in a car, if yours is not in the kit", 1200, 50, 50000, "litres", FromMemory},
		{"car/packing", "Share of the room that loose clusters fill", cargo.CommonPacking, 0.1,
			cargo.MostPacking, "of 1", cargo.CommonPackingMark},
		{"car/payload-kg", "Weight in a car, beside people", 300, 50, 20000, "kg", FromMemory},
		{"bag/clusters", "Room in one big clear bag", 240, 20, 2000, "litres", FromMemory},
	}},
	{"The way in", wayFigures},
	{group: "Rubber"}, // its entries are the sizes of calc/latex
	{"Walls and numbers", []entry{ // how walls and number frames are filled
		{"wall/nest", "Overlap of wall strings, in balloon diameters", cluster.SideBySideReach, 0, 1,
			"diameters", FromMemory},
		{"number/width", "Width of a digit, as a share of its height", 0.6, 0.2, 1.5, "of 1", FromMemory},
		{"number/stroke", "Stroke of a digit, as a share of its height", 0.2, 0.05, 0.5, "of 1", FromMemory},
		{"number/pressed", "Spacing of balloons in a number frame, as a share of their diameter", 0.9, 0.4, 1.5, "of 1",
			FromMemory},
	}},
	{"Helium and heat", []entry{ // how a builder's own balloons differ from the usual ones
		{"gas/own", "How much gas your balloons hold, compared with usual", 1, 0.5, 2, "times", CommonPractice},
		{"float/own", "How long your balloons float, compared with usual", 1, 0.1, 30, "times", CommonPractice},
		{"float/gel", "How many times longer a balloon floats with drying gel", 5, 1, 30, "times", CommonPractice},
		{"helium/party", "Hours from the doors until helium balloons may sink", 4, 0, 72, "hours", CommonPractice},
		{"helium/spare-min", "Minutes to spare when helium is filled last", 30, 0, 240, "minutes", FromMemory},
		{"heat/own", "How much your balloons grow in warmth, compared with usual", 1, latex.LeastGrowth, latex.MostGrowth,
			"times", CommonPractice},
		{"heat/sun", "How much warmer than the air a balloon gets in the sun", 10, 0, 40, "°C", FromMemory},
	}},
	{"Bars and lines", []entry{ // when a bar or a line is too weak
		{"bar/visible", "A dip of a bar shows from the span divided by", 100, 50, 1000, "parts", CommonPractice},
		{"bar/useless", "A dip of a bar is too much from the span divided by", 50, 10, 1000, "parts", CommonPractice},
		{"line/strength", "One fishing line breaks at", 90, 5, 5000, "N", FromMemory},
	}},
	{"Stands", []entry{ // what tips a stand and what holds it, where the kit does not say
		{"stand/safety", "Safety factor of a stand against tipping and sliding", rig.TipFactor, rig.TipFactor, 5,
			"times", FromMemory},
		{"stand/feet-depth", "Feet of a frame, front to back", rig.BackdropFeetMM, 100, 3000, "mm", FromMemory},
		{"stand/frame-wide", "Width of a frame outdoors, if not in your kit", 2400, 100, 20000, "mm", FromMemory},
		{"stand/frame-high", "Height of a frame outdoors, if not in your kit", 2200, 100, 10000, "mm", FromMemory},
		{"stand/frame-kg", "A frame weighs", 5, 0.1, 200, "kg", FromMemory},
		{"stand/column-kg", "A column's pole and foot weigh", 2, 0.1, 50, "kg", FromMemory},
		{"stand/digit-kg", "A number frame weighs", 2, 0.1, 50, "kg", FromMemory},
		{"stand/digit-feet", "Feet of a number frame, front to back", 300, 50, 2000, "mm", FromMemory},
		{"stand/lean-n", "Somebody leans on a frame with", rig.LeaningN, 0, 1000, "N", FromMemory},
		{"stand/lean-at", "Height at which somebody leans or bumps", rig.LeaningMM, 100, 3000, "mm", FromMemory},
		{"stand/bump-n", "Somebody bumps into a column or digit with", rig.BumpN, 0, 500, "N", FromMemory},
		{"stand/friction-hard", "Friction of feet on a hard floor", 0.3, 0.05, 1, "of 1", FromMemory},
		{"stand/friction-carpet", "Friction of feet on carpet", 0.4, 0.05, 1, "of 1", FromMemory},
		{"stand/friction-grass", "Friction of feet on grass", 0.35, 0.05, 1, "of 1", FromMemory},
		{"stand/friction-gravel", "Friction of feet on gravel or sand", 0.35, 0.05, 1, "of 1", FromMemory},
		{"stand/friction-wet", "Friction of feet in rain, at most", 0.25, 0.05, 1, "of 1", FromMemory},
		{"stand/stake-n", "One stake in firm grass holds", rig.StakeN, 10, 5000, "N", FromMemory},
		{"stand/most-lines", "Most lines to stakes on each side of a frame", 4, 2, 20, "lines", FromMemory},
		{"stand/most-kg", "Most weight that is worth carrying for one stand", 250, 10, 5000, "kg", FromMemory},
	}},
	{"Breakage", []entry{ // how many balloons break
		{"breakage/practised", "Breakage, practised hands", 2.5, 0, 50, "%", CommonPractice},
		{"breakage/beginner", "Breakage, beginners' hands", 5, 0, 50, "%", CommonPractice},
		{"breakage/outdoors", "Extra outdoors, in sun and wind", 3, 0, 50, "%", FromMemory},
		{"breakage/covered", "Extra outdoors, under cover", 1.5, 0, 50, "%", FromMemory},
		{"breakage/rough", "Extra on grass, gravel or sand", 1, 0, 50, "%", FromMemory},
		{"breakage/mirror", "Extra for a mirror finish", 3, 0, 50, "%", FromMemory},
		{"breakage/small", "Extra for the smallest size", 1, 0, 50, "%", FromMemory},
	}},
	{group: "Minutes"}, // its entries come from [works]
	{"Hands", []entry{ // how many people fit round a task
		{"hands/piece", "Most people on one piece", 4, 1, 20, "hands", CommonPractice},
		{"hands/lift", "Hands for a frame, a cover, a sign or a base", 2, 1, 10, "hands", CommonPractice},
		{"hands/alone", "Hands' minutes when working alone, compared with two", 1.5, 1, 4, "times", CommonPractice},
		{"hands/filling", "People one electric pump serves", 1, 1, 10, "hands", CommonPractice},
		{"hands/doorway", "Width of doorway where two can pass with full arms", 1200, 500, 5000, "mm", FromMemory},
		{"hands/ladder", "Work above this height needs a ladder", 2000, 1000, 4000, "mm", FromMemory},
	}},
	{"Clock", clockEntries()},
	{group: "Spread of times"}, // its entries are those of [WorkKinds]
	{"Supplies", []entry{ // how far the supplies go
		{"supply/glue-dots", "Glue dots for one accent cluster", 2, 0, 20, "dots", FromMemory},
		{"supply/glue-roll", "Glue dots on one roll", 100, 10, 2000, "dots", FromMemory},
		{"supply/shine", "Length of base one can of shine spray covers", 9144, 1000, 100000, "mm", FromMemory},
		{"supply/bin-bag", "Burst balloons in one bin bag", 100, 10, 2000, "balloons", FromMemory},
		{"supply/ribbon", "Ribbon for one floating balloon", 1.5, 0.2, 20, "m", FromMemory},
		{"supply/ribbon-g", "A metre of ribbon weighs", 1, 0, 20, "g", FromMemory},
		{"supply/cylinder-l", "Water volume of a helium cylinder", 10, 0.2, 200, "litres", FromMemory},
		{"supply/cylinder-bar", "Its gauge when full", 200, 1, 320, "bar", FromMemory},
		{"supply/gel-ml", "Drying gel in one balloon", 5, 1, 200, "ml", FromMemory},
		{"supply/gel-bottle", "Drying gel in one bottle", 700, 50, 10000, "ml", FromMemory},
		{"supply/cable-ties", "Cable ties for one frame", 10, 0, 200, "ties", FromMemory},
		{"supply/hook-every", "Length of base for one removable hook", 609.6, 100, 10000, "mm", FromMemory},
		{"supply/foot-weights", "Weights for the feet of one frame indoors", 2, 0, 50, "weights", FromMemory},
		{"supply/foot-weights-out", "Weights for the feet of one frame outdoors", 6, 0, 50, "weights", FromMemory},
		{"supply/stand-weights", "Least weights for the foot of a column or digit", 1, 0, 50, "weights", FromMemory},
		{"supply/foot-weight-kg", "One foot weight", 10, 1, 50, "kg", FromMemory},
		{"supply/column-foot", "Width of a column's foot", 450, 150, 2000, "mm", FromMemory},
		{"supply/gust", "Strongest gust outdoors, if the brief names none", 5, 0, 30, "m/s", FromMemory},
		{"supply/clamps", "Clamps for one frame", 4, 0, 50, "clamps", FromMemory},
	}},
}
