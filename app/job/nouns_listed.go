package job

// Every listed entity has these registers too.
var (
	orderField   = Field{Name: "order", Label: "Place in the list", Kind: Number, Min: -1e9, Max: 1e9, Default: "0"}
	removedField = Field{Name: "removed", Label: "Removed", Kind: Flag, Default: "false"}
)

var colourNoun = Noun{Name: "colour", InFile: "colours", Label: "Colour", Fields: []Field{
	{Name: "name", Label: "Colour", Kind: Text, Required: true, Max: 40, Help: "As you would say it: coral, ink blue."},
	{Name: "value", Label: "Looks like", Kind: HexColour, Default: `"#c8c8c8"`},
	{Name: "finish", Label: "Finish", Kind: OneOf, Default: `"standard"`,
		Choices: []Choice{{"standard", "Standard"}, {"pastel", "Pastel"}, {"pearl", "Pearl"}, {"metallic", "Metallic"},
			{"mirror", "Mirror"}, {"crystal", "Crystal (clear)"}, {"printed", "Printed"}}},
	{Name: "sizes", Label: "Can be had in", Kind: SizeList, Required: true, Default: "[5,11,18]",
		Help: "Sizes your supplier has."},
	orderField,
	removedField,
}}

var memberNoun = Noun{Name: "member", InFile: "crew", Label: "Crew", Fields: []Field{
	{Name: "name", Label: "Name", Kind: Text, Required: true, Max: 60},
	{Name: "skill", Label: "Hands", Kind: OneOf, Default: `"beginner"`,
		Choices: []Choice{{"beginner", "Beginner"}, {"practised", "Practised"}}},
	{Name: "from", Label: "From", Kind: PointInTime, Help: "Empty: once there is access."},
	{Name: "to", Label: "Until", Kind: PointInTime, Help: "Empty: until the doors open."},
	{Name: "home", Label: "Helps at home", Kind: Flag, Default: "false", Help: "Also fills and ties before the day."},
	{Name: "drives", Label: "Can drive", Kind: Flag, Default: "false", Help: "Fetches loads with a car."},
	{Name: "again", Label: "There at other times", Kind: Spans, Default: "[]",
		Help: "After a break or at take-down. Times before the day are at home, in place of the usual evenings."},
	orderField,
	removedField,
}}

var kitNoun = Noun{Name: "kit", InFile: "kit", Label: "Kit", Fields: []Field{
	{Name: "kind", Label: "What it is", Kind: OneOf, Default: `"frame"`,
		Choices: []Choice{{"frame", "Frame"}, {"pole", "Column stand"}, {"digits", "Number frame"},
			{"pump", "Pump"}, {"ladder", "Ladder"}, {"car", "Car"}, {"cylinder", "Helium cylinder"},
			{"other", "Other"}}},
	{Name: "name", Label: "Name", Kind: Text, Required: true, Max: 80},
	{Name: "count", Label: "How many", Kind: Whole, Max: 1000, Default: "1"},
	{Name: "width_mm", Label: "Width or span", Kind: Length, Max: 20000, Default: "0",
		Help: "Of a frame: between the posts."},
	{Name: "height_mm", Label: "Height", Kind: Length, Max: 10000, Default: "0", Help: "Of a column stand: its pole."},
	{Name: "feet_depth_mm", Label: "Feet, front to back", Kind: Length, Max: 5000, Default: "0"},
	{Name: "feet_width_mm", Label: "Feet, side to side", Kind: Length, Max: 20000, Default: "0",
		Help: "Empty: as wide as it is."},
	{Name: "tested_mm", Label: "Longest bar tested", Kind: Length, Max: 20000, Default: "0",
		Help: "The span in your test at home."},
	{Name: "test_weight_g", Label: "Bench test: weight", Kind: Mass, Max: 200e3, Default: "0",
		Help: "Hung at the middle of the bar."},
	{Name: "test_dip_mm", Label: "Bench test: dip", Kind: SmallLength, Max: 2000, Default: "0",
		Help: "How far the middle sank under it."},
	{Name: "test_stays_mm", Label: "Bench test: stays", Kind: SmallLength, Max: 2000, Default: "0",
		Help: "Dip left with the weight off."},
	{Name: "weight_g", Label: "Weighs", Kind: Mass, Max: 500e3, Default: "0",
		Help: "A frame with its feet, a sign with its fittings."},
	{Name: "frame", Label: "Hangs on", Kind: Reference, Refers: "kit",
		Help: "The frame that carries a sign. None: any frame may."},
	{Name: "at_mm", Label: "Where on the bar", Kind: Length, Max: 20000, Default: "0",
		Help: "From the left post. Empty: the middle."},
	{Name: "litres", Label: "Room, litres", Kind: Number, Max: 50000, Default: "0",
		Help: "Of a car: boot with the seats down."},
	{Name: "longest_mm", Label: "Longest piece it takes", Kind: Length, Max: 20000, Default: "0", Help: "Of a car."},
	{Name: "driver", Label: "Who drives it", Kind: Reference, Refers: "member",
		Help: "Of a car. None: anyone who can drive."},
	{Name: "gas_l", Label: "Gas when full", Kind: Volume, Max: 100000, Default: "0",
		Help: "Of a cylinder, as rated."},
	{Name: "notes", Label: "Notes", Kind: LongText, Max: 4000},
	orderField,
	removedField,
}}

var addedNoun = Noun{Name: "added", InFile: "added", Label: "Your own line", Fields: []Field{
	{Name: "list", Label: "List", Kind: OneOf, Default: `"pack"`,
		Choices: []Choice{{"pack", "Pack list"}, {"home", "Card at home"}, {"load", "Card for loading"},
			{"site", "Card on site"}, {"takedown", "Card for take-down"}}},
	{Name: "text", Label: "What", Kind: Text, Required: true, Max: 200},
	{Name: "count", Label: "How many", Kind: Whole, Min: 1, Max: 10000, Default: "1"},
	{Name: "bag", Label: "Travels in", Kind: Text, Max: 60},
	{Name: "minutes", Label: "Minutes", Kind: Number, Max: 1440, Default: "5"},
	{Name: "hands", Label: "Hands", Kind: Whole, Min: 1, Max: 20, Default: "1"},
	orderField,
	removedField,
}}

// MostNote is the longest note of one's own figure, in letters.
const MostNote = 200

var overrideNoun = Noun{Name: "override", InFile: "overrides", Label: "My number", Fields: []Field{
	{Name: "value", Label: "Value", Kind: Number, Max: 1e6, Default: "null", Help: "Used in place of the table's."},
	{Name: "note", Label: "How you know", Kind: Text, Max: MostNote, Help: "Measured when, on what."},
	orderField,
	removedField,
}}

var choiceNoun = Noun{Name: "choice", InFile: "choices", Label: "Decision", Fields: []Field{
	{Name: "pick", Label: "Decision", Kind: Text, Max: 60},
	orderField,
	removedField,
}}

var pricesNoun = Noun{Name: "own/prices", InFile: "prices", Label: "What you pay", Private: true, Fields: []Field{
	{Name: "bags", Label: "Bags and prices", Kind: Text, Max: 200,
		Help: "E.g. 100 for 9.90, 50 for 5.60."},
	orderField,
	removedField,
}}
