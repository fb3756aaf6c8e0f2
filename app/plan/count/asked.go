package count

// Note is something the plan decided, asks or warns of.
type Note struct {
	Key     string // choice key: the decision is entity "choice/"+Key field "pick"; "" if there is nothing to decide
	Kind    string // substitute, warning, info
	Piece   string
	Text    string
	Options []Option
	Picked  string
}

// Option is one way to decide a note.
type Option struct{ Value, Label string }

func (d *Draft) Warn(piece, text string) {
	d.Note(Note{Kind: "warning", Piece: piece, Text: text})
}

func (d *Draft) Inform(piece, text string) {
	d.Note(Note{Kind: "info", Piece: piece, Text: text})
}

// Note adds a note to the plan.
func (d *Draft) Note(n Note) { d.Notes = append(d.Notes, n) }

// Picked is the user's decision, if it is among the options.
func (d *Draft) Picked(key string, options []Option) string {
	for _, o := range options {
		if d.Job.Choices[key] == o.Value {
			return o.Value
		}
	}
	return ""
}
