package count

// Note is a decision, a question or a warning of the plan.
type Note struct {
	Key     string // choice key: the answer is entity "choice/"+Key field "pick"; "" if there is no question
	Kind    string // substitute, warning, info
	Piece   string
	Text    string
	Options []Option
	Picked  string
	Urgent  bool // shown at the top of the job
}

// Asks reports whether the note is a question with answers to choose from.
func (n Note) Asks() bool { return n.Key != "" && len(n.Options) > 0 }

// Option is one answer to a note.
type Option struct{ Value, Label string }

// Warn adds a warning about a piece; "" is the whole job.
func (d *Draft) Warn(piece, text string) {
	d.Note(Note{Kind: "warning", Piece: piece, Text: text})
}

// Inform adds a note about a piece; "" is the whole job.
func (d *Draft) Inform(piece, text string) {
	d.Note(Note{Kind: "info", Piece: piece, Text: text})
}

// Note adds a note to the plan.
func (d *Draft) Note(n Note) { d.Notes = append(d.Notes, n) }

// Picked returns the user's answer if it is among the options, else "".
func (d *Draft) Picked(key string, options []Option) string {
	for _, o := range options {
		if d.Job.Choices[key] == o.Value {
			return o.Value
		}
	}
	return ""
}
