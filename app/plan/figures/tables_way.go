package figures

// wayFigures are what carrying things in takes beside the table's minutes for a car at the door. People walk alone at
// 0.8 to 1.7 m/s and climb long stairs at 0.4 to 0.5 m/s along the ground (Kretz et al., "Upstairs walking speed
// distributions on a long stairway", Building and Environment 43, 2008, from memory); with full arms they are slower.
var wayFigures = []entry{
	{"way/load", "Bags, boxes and frames in a usual car", 40, 1, 500, "things", FromMemory},
	{"way/arms", "Bags or boxes one person carries at once", 2, 1, 10, "things", FromMemory},
	{"way/trolley", "Bags or boxes on a trolley", 6, 1, 50, "things", FromMemory},
	{"way/speed", "Walking with full arms and back", 1, 0.2, 3, "m/s", FromMemory},
	{"way/flight", "One flight of stairs, up and down", 0.5, 0.1, 10, "minutes", FromMemory},
	{"way/lift", "One ride of a lift, with waiting, and back", 3, 0.5, 30, "minutes", FromMemory},
}
