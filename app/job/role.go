package job

import "strings"

// Role is what a person may do in a job.
type Role string

// UnnamedOwner is shown as the name of an owner who gave none.
const UnnamedOwner = "The owner"

// The roles, from the widest to the narrowest.
const (
	Owner  Role = "owner"  // everything
	Lead   Role = "lead"   // ticks, counts, and edits pieces, their layers and cards
	Helper Role = "helper" // ticks and counts
)

// May reports whether the role may make an operation of the kind on the entity. Only this function and [Role.MayField]
// decide it. The phone asks before it offers an action, the server before it accepts one.
func (r Role) May(kind Kind, entity string) bool {
	noun := nounOf(entity)
	switch r {
	case Owner:
		return true
	case Lead:
		return IsProgress(entity) || noun == "piece" || noun == "layer" || noun == "added" || noun == "photo" ||
			noun == "box"
	case Helper:
		return IsProgress(entity)
	}
	return false
}

// MayField narrows [Role.May] by field: a helper ticks, packs and says how long it took, but does not edit a card. Only
// the owner may make an operation of an unknown kind: its effect is unknown, and it stays in everybody's log for good.
func (r Role) MayField(kind Kind, entity, field string) bool {
	if !r.May(kind, entity) || r != Owner && !kind.Known() {
		return false
	}
	if r == Helper && kind == Set {
		return field == "taken" || field == "took" || tickField(field)
	}
	return true
}

// tickField reports whether a register of a card or pack line is set by a tick.
func tickField(field string) bool {
	switch field {
	case "done", "have", "stands", "back", "bought", "unneeded":
		return true
	}
	return false
}

// Private reports whether the entity is for the owner alone: it is in a separate log that helpers never get.
func Private(entity string) bool { return strings.HasPrefix(entity, "own/") }
