package count

// tables are equal table pieces.
func init() {
	register(Kind{
		Name:     "tables",
		Teach:    "A small piece on each table.",
		Measures: []string{"count", "each", "size_in", "to_in", "gas"},
		Needed:   []string{"count", "each", "size_in"},
		Build:    []string{"colours"},
		More:     []string{"counts", "priority", "built", "ahead", "notes"},
		Begin:    Begin{Name: "Table pieces"},
		Starts: []Start{{Key: "tables", Picture: tablesPicture,
			Label: "Tables", Ask: "how many", One: "table piece", Many: "table pieces",
			Metric: "6", Imperial: "6", Fields: []string{"count"}, Most: 500}},
		Count:   func(d *Draft, c *Counted) { d.bunches(c, "table piece", "table pieces") },
		AirOnly: true,
		Work:    "set-out",
		PutUp:   setOut,
	})
}

// tablesPicture was drawn by hand.
var tablesPicture = Picture{"M8 34h56M14 34v12M58 34v12", []float64{
	29, 29, 5, 38, 29, 5.5, 46, 30, 4, 33, 21, 5, 42, 22, 4.5, 37, 13, 5,
}}
