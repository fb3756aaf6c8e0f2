package plan

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

func (d *draft) warn(piece, text string) {
	d.note(Note{Kind: "warning", Piece: piece, Text: text})
}

func (d *draft) inform(piece, text string) {
	d.note(Note{Kind: "info", Piece: piece, Text: text})
}

// note adds a note to the plan.
func (d *draft) note(n Note) { d.plan.Notes = append(d.plan.Notes, n) }

// picked is the user's decision, if it is among the options.
func (d *draft) picked(key string, options []Option) string {
	for _, o := range options {
		if d.job.Choices[key] == o.Value {
			return o.Value
		}
	}
	return ""
}
