package plan

// supplyTable says how far the supplies go.
func supplyTable() []Figure {
	const group = "Supplies"
	return []Figure{
		remembered("supply/glue-dots", group, "Glue dots for one accent cluster", 2, 0, 20, "dots"),
		remembered("supply/glue-roll", group, "Glue dots on one roll", 100, 10, 2000, "dots"),
		remembered("supply/shine", group, "Length of base one can of shine spray covers", 9144, 1000, 100000, "mm"),
		remembered("supply/bin-bag", group, "Balloons that one bin bag takes when burst or flat", 100, 10, 2000, "balloons"),
		remembered("supply/ribbon", group, "Ribbon for one floating balloon", 1.5, 0.2, 20, "m"),
		remembered("supply/cable-ties", group, "Cable ties for one frame", 10, 0, 200, "ties"),
		remembered("supply/hook-every", group, "A removable hook for every length of base on a wall", 609.6, 100, 10000, "mm"),
		remembered("supply/foot-weights", group, "Weights for the feet of one frame indoors", 2, 0, 50, "weights"),
		remembered("supply/foot-weights-out", group, "Weights for the feet of one frame outdoors", 6, 0, 50, "weights"),
		remembered("supply/clamps", group, "Clamps for one frame", 4, 0, 50, "clamps"),
	}
}
