package job

import "strings"

// Role is what a person may do in a job.
type Role string

// The roles, from the widest to the narrowest.
const (
	Owner  Role = "owner"  // everything
	Lead   Role = "lead"   // ticks, counts, and edits pieces and cards
	Helper Role = "helper" // ticks and counts
)

// May reports whether the role may make an operation of the kind on the entity. It is the only place that decides;
// the phone asks before it offers, the server asks again before it accepts.
func (r Role) May(kind Kind, entity string) bool {
	noun := nounOf(entity)
	switch r {
	case Owner:
		return true
	case Lead:
		return IsProgress(entity) || noun == "piece" || noun == "added"
	case Helper:
		return IsProgress(entity)
	}
	return false
}

// MayField narrows [Role.May] by field: a helper ticks and packs but does not rewrite a card. A kind that this build
// does not know is for the owner alone: nothing can be said of what it would do, and it stays in everybody's log for
// good.
func (r Role) MayField(kind Kind, entity, field string) bool {
	if !r.May(kind, entity) || r != Owner && !kind.Known() {
		return false
	}
	if r == Helper && kind == Set {
		return field == "done" || field == "have" || field == "stands" || field == "back" || field == "taken"
	}
	return true
}

// Private reports whether the entity is for the owner alone: it travels in a log of its own that helpers never get.
func Private(entity string) bool { return strings.HasPrefix(entity, "own/") }
