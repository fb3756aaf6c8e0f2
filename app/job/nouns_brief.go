package job

var briefNoun = Noun{Name: "brief", InFile: "brief", Label: "Brief", Single: true, Fields: []Field{
	{Name: "title", Label: "Title", Kind: Text, Required: true, Max: 120, Help: "What you call this job."},
	{Name: "date", Label: "Date", Kind: Day, Help: "The day of the event."},
	{Name: "venue", Label: "Venue", Kind: Text, Max: 200, Help: "Where it is, as a helper would ask for it."},
	{Name: "place", Label: "Indoors or out", Kind: OneOf, Default: `"indoors"`,
		Choices: []Choice{{"indoors", "Indoors"}, {"outdoors", "Outdoors"}, {"covered", "Outdoors under cover"}}},
	{Name: "altitude_mm", Label: "Altitude", Kind: Length, Min: -500e3, Max: 5000e3, Default: "0",
		Help: "Height above the sea; higher places stretch balloons."},
	{Name: "prep_c", Label: "Temperature at prep", Kind: Temperature, Min: -20, Max: 50, Default: "20", Help: "Where the balloons are filled."},
	{Name: "venue_c", Label: "Temperature at the venue", Kind: Temperature, Min: -20, Max: 60, Default: "22", Help: "Where they hang, at the warmest."},
	{Name: "in", Label: "Let in at", Kind: PointInTime, Help: "From when the venue lets you in."},
	{Name: "doors", Label: "Doors", Kind: PointInTime, Help: "When the guests come in and all is done."},
	{Name: "down", Label: "Take-down", Kind: PointInTime, Help: "When you may take it all down."},
	{Name: "floor", Label: "Floor", Kind: OneOf, Default: `"hard"`,
		Choices: []Choice{{"hard", "Hard floor"}, {"carpet", "Carpet"}, {"grass", "Grass"}, {"gravel", "Gravel or sand"}}},
	{Name: "fixing", Label: "What may be stuck or tied", Kind: OneOf, Default: `"nothing"`,
		Choices: []Choice{{"nothing", "Nothing on walls"}, {"removable", "Removable hooks and tape"}, {"tie", "Tying to rails and posts"}, {"any", "Anything"}}},
	{Name: "power", Label: "Power", Kind: OneOf, Default: `"near"`,
		Choices: []Choice{{"near", "Socket close by"}, {"far", "Socket with an extension lead"}, {"none", "No power"}}},
	{Name: "parking", Label: "Parking and way in", Kind: Text, Max: 300, Help: "Where the car stands, stairs or lift."},
	{Name: "door_mm", Label: "Narrowest doorway", Kind: Length, Min: 300, Max: 20000, Default: "null", Help: "How wide, on the way in. Empty: two pass each other."},
	{Name: "allergy", Label: "Allergy", Kind: LongText, Max: 4000, Help: "Latex allergy among guests or staff?"},
	{Name: "children", Label: "Children", Kind: LongText, Max: 4000, Help: "Small children there? They can choke on balloons and pieces."},
	{Name: "notes", Label: "Notes", Kind: LongText, Max: 4000},
	{Name: "units", Label: "Units", Kind: OneOf, Default: `"imperial"`, Choices: []Choice{{"imperial", "Feet and inches"}, {"metric", "Metres"}}},
	{Name: "zone", Label: "Time zone", Kind: Text, Max: 60, Help: "Such as Europe/Lisbon."},
	{Name: "spare_pct", Label: "Breakage", Kind: Number, Max: 50, Default: "null", Help: "Share of balloons that break; empty uses the table."},
	{Name: "sure_pct", Label: "How sure of enough", Kind: Number, Min: 50, Max: 99.9, Default: "99", Help: "Odds that the spares suffice."},
	{Name: "away", Label: "Put away", Kind: Flag, Default: "false"},
}}

var contactNoun = Noun{Name: "own/contact", InFile: "contact", Label: "Client contact", Single: true, Private: true, Fields: []Field{
	{Name: "name", Label: "Client's name", Kind: Text, Max: 120, Help: "Only you see this."},
	{Name: "phone", Label: "Telephone", Kind: Text, Max: 60, Help: "Only you see this."},
	{Name: "email", Label: "E-mail", Kind: Text, Max: 120, Help: "Only you see this."},
	{Name: "agreed", Label: "What was agreed", Kind: LongText, Max: 4000, Help: "Price, deposit, photos allowed. Only you see this."},
}}
