package sync

import (
	"encoding/json"

	"garlandry/app/job"
)

// WhyIDTaken is the reason for refusing an operation if somebody else's operation has its id.
const WhyIDTaken = "another person's change has the name of this one, so this one was not taken; make it again"

// IDTaken reports whether the record with the operation's id is a different one by somebody else. After a restore, an
// insider may have used the id of an operation that the server had lost. The author's own record always counts as the
// same: a form that comes again gives the same ids, even if it says something else by now.
func IDTaken(rec job.Rec, op job.Op, by job.Author) bool {
	return rec.Kind != job.Emptied && Identity(rec.Author) != Identity(by) && !sameContent(rec.Op, op)
}

func sameContent(a, b job.Op) bool {
	return a.Kind == b.Kind && a.Entity == b.Entity && a.Field == b.Field && a.Delta == b.Delta &&
		sameValue(a.Value, b.Value)
}

// sameValue reports whether two JSON values are equal, whatever their spelling.
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
