package sync

import (
	"encoding/json"

	"garlandry/app/job"
)

// WhyTaken is why an operation is refused whose id somebody else's operation has in the log.
const WhyIDTaken = "another person's change has the name of this one, so this one was not taken; make it again"

// Taken reports whether the record that has the operation's id is another one, by somebody else: after a restore, an
// insider may have posted under the id of what the server had lost. The author's own is always taken for the same: a
// form that comes again names its operations as before, even if it says something else by now.
func IDTaken(rec job.Rec, op job.Op, by job.Author) bool {
	return rec.Kind != job.Emptied && Identity(rec.Author) != Identity(by) && !sameContent(rec.Op, op)
}

func sameContent(a, b job.Op) bool {
	return a.Kind == b.Kind && a.Entity == b.Entity && a.Field == b.Field && a.Delta == b.Delta &&
		sameValue(a.Value, b.Value)
}

// sameValue compares what two values say, however they are spelled.
func sameValue(a, b json.RawMessage) bool {
	if string(a) == string(b) {
		return true
	}
	plain := func(raw json.RawMessage) (string, bool) {
		var value any
		if json.Unmarshal(raw, &value) != nil {
			return "", false
		}
		text, err := json.Marshal(value)
		return string(text), err == nil
	}
	first, read := plain(a)
	second, also := plain(b)
	return read && also && first == second
}
