package job

import (
	"strconv"
	"strings"
)

// Noun is one kind of thing in a job, with its fields. Entities of a noun are named "noun/id", single ones "noun".
type Noun struct {
	Name    string // in entity names
	InFile  string // its key in a job file
	Label   string
	Single  bool // one of it in a job: the brief
	Private bool // for the owner alone
	Fields  []Field
}

// Nouns lists everything a job is designed from. Forms, checks, the job file and its schema follow this list.
func Nouns() []Noun {
	var all []Noun
	for _, row := range nounTable() {
		all = append(all, row.build())
	}
	return all
}

// nounRow finds a noun without building the others: checks ask for one with every operation.
type nounRow struct {
	name   string // as in [Noun]
	single bool
	build  func() Noun
}

func nounTable() [9]nounRow {
	return [...]nounRow{{"brief", true, briefNoun}, {"own/contact", true, contactNoun}, {"colour", false, colourNoun}, {"member", false, memberNoun},
		{"kit", false, kitNoun}, {"piece", false, pieceNoun}, {"added", false, addedNoun}, {"override", false, overrideNoun}, {"choice", false, choiceNoun}}
}

// FindNoun gives the noun that an entity belongs to.
func FindNoun(entity string) (Noun, bool) {
	for _, row := range nounTable() {
		if row.single && entity == row.name || !row.single && strings.HasPrefix(entity, row.name) && strings.HasPrefix(entity[len(row.name):], "/") {
			return row.build(), true
		}
	}
	return Noun{}, false
}

// Field gives the noun's field of that name.
func (n Noun) Field(name string) (Field, bool) {
	for _, f := range n.Fields {
		if f.Name == name {
			return f, true
		}
	}
	return Field{}, false
}

func text(name, label string, max float64, help string) Field {
	return Field{Name: name, Label: label, Kind: Text, Max: max, Help: help}
}

func digits(name, label string, max float64, help string) Field {
	f := text(name, label, max, help)
	f.Only = "0123456789 "
	return f
}

func longText(name, label, help string) Field {
	return Field{Name: name, Label: label, Kind: LongText, Max: 4000, Help: help}
}

func oneOf(name, label, help string, choices ...Choice) Field {
	return Field{Name: name, Label: label, Kind: OneOf, Choices: choices, Help: help, Default: strconv.Quote(choices[0].Value)}
}

func flag(name, label, help string) Field {
	return Field{Name: name, Label: label, Kind: Flag, Help: help, Default: "false"}
}

func number(kind FieldKind, name, label string, min, max float64, fallback, help string) Field {
	return Field{Name: name, Label: label, Kind: kind, Min: min, Max: max, Help: help, Default: fallback}
}

func required(f Field) Field {
	f.Required = true
	return f
}

// commonFields are the registers every listed entity has.
func commonFields() []Field {
	return []Field{
		number(Number, "order", "Place in the list", -1e9, 1e9, "0", ""),
		flag("removed", "Removed", ""),
	}
}

func briefNoun() Noun {
	return Noun{Name: "brief", InFile: "brief", Label: "Brief", Single: true, Fields: []Field{
		required(text("title", "Title", 120, "What you call this job.")),
		{Name: "date", Label: "Date", Kind: Day, Help: "The day of the event."},
		text("venue", "Venue", 200, "Where it is, as a helper would ask for it."),
		oneOf("place", "Indoors or out", "", Choice{"indoors", "Indoors"}, Choice{"outdoors", "Outdoors"}, Choice{"covered", "Outdoors under cover"}),
		number(Length, "altitude_mm", "Altitude", -500e3, 5000e3, "0", "Height above the sea; higher places stretch balloons."),
		number(Temperature, "prep_c", "Temperature at prep", -20, 50, "20", "Where the balloons are filled."),
		number(Temperature, "venue_c", "Temperature at the venue", -20, 60, "22", "Where they hang, at the warmest."),
		{Name: "in", Label: "Let in at", Kind: PointInTime, Help: "From when the venue lets you in."},
		{Name: "doors", Label: "Doors", Kind: PointInTime, Help: "When the guests come in and all is done."},
		{Name: "down", Label: "Take-down", Kind: PointInTime, Help: "When you may take it all down."},
		oneOf("floor", "Floor", "", Choice{"hard", "Hard floor"}, Choice{"carpet", "Carpet"}, Choice{"grass", "Grass"}, Choice{"gravel", "Gravel or sand"}),
		oneOf("fixing", "What may be stuck or tied", "", Choice{"nothing", "Nothing on walls"}, Choice{"removable", "Removable hooks and tape"}, Choice{"tie", "Tying to rails and posts"}, Choice{"any", "Anything"}),
		oneOf("power", "Power", "", Choice{"near", "Socket close by"}, Choice{"far", "Socket with an extension lead"}, Choice{"none", "No power"}),
		text("parking", "Parking and way in", 300, "Where the car stands, stairs or lift."),
		longText("allergy", "Allergy", "Latex allergy among guests or staff?"),
		longText("children", "Children", "Small children there? They can choke on balloons and pieces."),
		longText("notes", "Notes", ""),
		oneOf("units", "Units", "", Choice{"imperial", "Feet and inches"}, Choice{"metric", "Metres"}),
		text("zone", "Time zone", 60, "Such as Europe/Lisbon."),
		number(Number, "spare_pct", "Breakage", 0, 50, "null", "Share of balloons that break; empty uses the table."),
		number(Number, "sure_pct", "How sure of enough", 50, 99.9, "99", "Odds that the spares suffice."),
		flag("away", "Put away", ""),
	}}
}

func contactNoun() Noun {
	return Noun{Name: "own/contact", InFile: "contact", Label: "Client contact", Single: true, Private: true, Fields: []Field{
		text("name", "Client's name", 120, "Only you see this."),
		text("phone", "Telephone", 60, "Only you see this."),
		text("email", "E-mail", 120, "Only you see this."),
		longText("agreed", "What was agreed", "Price, deposit, photos allowed. Only you see this."),
	}}
}

func colourNoun() Noun {
	return Noun{Name: "colour", InFile: "colours", Label: "Colour", Fields: append([]Field{
		required(text("name", "Colour", 40, "As you would say it: coral, ink blue.")),
		{Name: "value", Label: "Looks like", Kind: HexColour, Default: `"#c8c8c8"`},
		oneOf("finish", "Finish", "", Choice{"standard", "Standard"}, Choice{"pastel", "Pastel"}, Choice{"pearl", "Pearl"}, Choice{"metallic", "Metallic"}, Choice{"mirror", "Mirror"}, Choice{"crystal", "Crystal (clear)"}, Choice{"printed", "Printed"}),
		{Name: "sizes", Label: "Can be had in", Kind: SizeList, Required: true, Default: "[5,11,18]", Help: "The sizes your supplier has in this colour."},
	}, commonFields()...)}
}

func memberNoun() Noun {
	return Noun{Name: "member", InFile: "crew", Label: "Crew", Fields: append([]Field{
		required(text("name", "Name", 60, "")),
		oneOf("skill", "Hands", "", Choice{"beginner", "Beginner"}, Choice{"practised", "Practised"}),
		{Name: "from", Label: "From", Kind: PointInTime, Help: "Empty: from when the venue lets you in."},
		{Name: "to", Label: "Until", Kind: PointInTime, Help: "Empty: until the doors open."},
		flag("home", "Helps at home", "Also fills and ties before the day."),
	}, commonFields()...)}
}

func kitNoun() Noun {
	return Noun{Name: "kit", InFile: "kit", Label: "Kit", Fields: append([]Field{
		oneOf("kind", "What it is", "", Choice{"frame", "Frame"}, Choice{"pump", "Pump"}, Choice{"ladder", "Ladder"}, Choice{"car", "Car"}, Choice{"other", "Other"}),
		required(text("name", "Name", 80, "")),
		number(Whole, "count", "How many", 0, 1000, "1", ""),
		number(Length, "width_mm", "Width or span", 0, 20000, "0", "Of a frame: between the posts."),
		number(Length, "height_mm", "Height", 0, 10000, "0", ""),
		number(Length, "tested_mm", "Longest bar tested", 0, 20000, "0", "The span at which you tested the top bar at home."),
		number(Number, "litres", "Room, litres", 0, 50000, "0", "Of a car: boot with the seats down."),
		number(Length, "longest_mm", "Longest piece it takes", 0, 20000, "0", "Of a car."),
		longText("notes", "Notes", ""),
	}, commonFields()...)}
}

func addedNoun() Noun {
	return Noun{Name: "added", InFile: "added", Label: "Your own line", Fields: append([]Field{
		oneOf("list", "List", "", Choice{"pack", "Pack list"}, Choice{"home", "Card at home"}, Choice{"load", "Card for loading"}, Choice{"site", "Card on site"}, Choice{"takedown", "Card for take-down"}),
		required(text("text", "What", 200, "")),
		number(Whole, "count", "How many", 1, 10000, "1", ""),
		text("bag", "Travels in", 60, ""),
		number(Number, "minutes", "Minutes", 0, 1440, "5", ""),
		number(Whole, "hands", "Hands", 1, 20, "1", ""),
	}, commonFields()...)}
}

func overrideNoun() Noun {
	return Noun{Name: "override", InFile: "overrides", Label: "Your own figure", Fields: append([]Field{
		number(Number, "value", "Value", 0, 1e6, "null", "Stands in for the table's figure."),
		text("note", "How you know", 200, "Measured when, on what."),
	}, commonFields()...)}
}

func choiceNoun() Noun {
	return Noun{Name: "choice", InFile: "choices", Label: "Decision", Fields: append([]Field{
		text("pick", "Decision", 60, ""),
	}, commonFields()...)}
}

// KnownSize reports whether balloons of the nominal size, in inches, exist in the tables.
func KnownSize(inches int) bool {
	for _, s := range Sizes {
		if s == inches {
			return true
		}
	}
	return false
}

// Sizes are the nominal sizes of round balloons, inches, smallest first. Common practice, no source.
var Sizes = [...]int{5, 9, 10, 11, 12, 16, 18, 24, 36}

func sizeList() string {
	names := make([]string, len(Sizes))
	for i, s := range Sizes {
		names[i] = strconv.Itoa(s)
	}
	return strings.Join(names, ", ")
}
