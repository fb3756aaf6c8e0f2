package job

// Box is a plain thing of the room that pieces are placed around: a door, a table, steps.
type Box struct {
	ID       string  `json:"-"`
	Name     string  `json:"name"`
	Kind     string  `json:"kind"`  // door, table, steps, other
	AtMM     float64 `json:"at_mm"` // its middle, from the room's left
	UpMM     float64 `json:"up_mm"` // its lower edge above the floor
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm"`
	Front    bool    `json:"front"` // it stands in front of the pieces
	Order    float64 `json:"order"`
}

var boxNoun = Noun{Name: "box", InFile: "boxes", Label: "Door, table or steps", Fields: []Field{
	{Name: "kind", Label: "What it is", Kind: OneOf, Default: `"door"`,
		Choices: []Choice{{"door", "Door"}, {"table", "Table"}, {"steps", "Steps"}, {"other", "Something else"}}},
	{Name: "name", Label: "Name", Kind: Text, Required: true, Max: 60},
	{Name: "width_mm", Label: "Width", Kind: Length, Min: 50, Max: 100000, Default: "900"},
	{Name: "height_mm", Label: "Height", Kind: Length, Min: 50, Max: 50000, Default: "2000"},
	{Name: "at_mm", Label: "Middle at", Kind: Length, Min: -100000, Max: 100000, Default: "1000",
		Help: "From the room's left."},
	{Name: "up_mm", Label: "Above the floor", Kind: Length, Max: 50000, Default: "0"},
	{Name: "front", Label: "In front of the pieces", Kind: Flag, Default: "false"},
	orderField,
	removedField,
}}
