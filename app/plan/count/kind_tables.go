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
		Start: &Start{Label: "Table pieces", Ask: "how many tables", Metric: "8", Imperial: "8", Keypad: "numeric",
			Field: "count"},
		Count:   func(d *Draft, c *Counted) { d.bunches(c, "table piece", "table pieces") },
		AirOnly: true,
		Work:    "set-out",
		PutUp:   setOut,
	})
}
