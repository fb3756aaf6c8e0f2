package count

// Note is a decision, a question or a warning of the plan.
type Note struct {
	Key     string // choice key: the answer is entity "choice/"+Key field "pick"; "" if there is no question
	Kind    string // substitute, warning, info
	Piece   string // id; "" for the whole job or several pieces
	Title   string // a question in a few words
	Text    string
	Options []Option
	Picked  string
	Parts   []Part // the pieces that a question is about, where one answer serves several
	Settled bool   // every part has an answer, if not the same
	Urgent  bool   // shown at the top of the job
}

// Asks reports whether the note is a question with answers to choose from.
func (n Note) Asks() bool { return n.Key != "" && len(n.Options) > 0 }

// Open reports whether the note is a question without an answer.
func (n Note) Open() bool { return n.Asks() && n.Picked == "" && !n.Settled }

// About reports whether the note is about a piece.
func (n Note) About(piece string) bool {
	if n.Piece == piece {
		return true
	}
	for i := range n.Parts {
		if n.Parts[i].Piece == piece {
			return true
		}
	}
	return false
}

// AskedAs reports whether a choice key is that of the note, or of one of its parts alone.
func (n Note) AskedAs(key string) bool {
	if n.Key == key {
		return key != ""
	}
	for i := range n.Parts {
		if n.Parts[i].Key == key {
			return true
		}
	}
	return false
}

// PickedLabel says the answer: the label of what was picked, or what each part has where they differ.
func (n Note) PickedLabel() string {
	if n.Picked == "" && n.Settled {
		return "Decided for each piece"
	}
	return n.label(n.Picked)
}

// Option is one answer to a note. Cluster is one of those that it makes, if that is what the question is about.
type Option struct {
	Value, Label string
	Cluster      *ClusterKind `json:"-"`
}

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
