package job

import "strings"

// An operation that does harm is set aside by an ordinary register: the entity "aside/ID" (in the owner's private log
// "own/aside/ID"), whose field "aside" says true or false and whose field "why" says why. Who and when are the author
// and stamp of that operation. Only the owner may write there, on servers and phones of every build, since [Role.May]
// has never let others do so; older builds keep it as a register that they do not know.
//
// Records are never altered or removed: sequence, seal, hash chain and digest of the log stay as they are, so cursors
// of phones stay good. Three things honour it:
//
//   - The fold skips an operation that stands aside, in whatever order the two come ([State.Stale]).
//   - The server does not send the operation again. In its place goes an [Emptied] record, which says what the real one
//     adds to the digest, so that phones with and phones without the operation add up to the same.
//   - A phone that returns lost records to a restored server leaves Emptied records out. Phones that pulled the
//     operation before it was set aside return it with its seal, and the register comes back with the other records.
//     If none does, the operation is gone and the register names nothing.
//
// A phone of an older build treats an Emptied record as an unknown kind. Its fold is right, but its sum does not match
// the server's: it pulls the log again and then reports the mismatch, until a newer build pulls the log.
const (
	AsideField = "aside"
	AsideWhy   = "why"
	asideNoun  = "aside/"
	ownPrefix  = "own/"
)

// Emptied is the kind of a record that stands in for one which is not sent: it was set aside, or is not
// [Op.Harmless]. Nobody can make an operation of this kind.
const Emptied Kind = "emptied"

var asideFields = []Field{
	{Name: AsideField, Label: "Set aside", Kind: Flag, Default: "false"},
	{Name: AsideWhy, Label: "Why", Kind: LongText, Max: 400},
}

// AsideFields are the registers of an operation that may stand aside.
func AsideFields() []Field { return asideFields }

// SetAside makes the changes that set an operation aside, or take it back, in the shared or the private log.
func SetAside(op string, private, aside bool, why string) []Change {
	entity := AsideEntity(op, private)
	return []Change{Put(entity, AsideField, aside), Put(entity, AsideWhy, why)}
}

// AsideEntity names the entity under which an operation of the shared or the private log is set aside.
func AsideEntity(op string, private bool) string {
	if private {
		return ownPrefix + asideNoun + op
	}
	return asideNoun + op
}

// AsideOf returns the operation that an entity sets aside, if it is about one.
func AsideOf(entity string) (op string, is bool) {
	return strings.CutPrefix(strings.TrimPrefix(entity, ownPrefix), asideNoun)
}

// SetsAside returns the operation that this one sets aside or takes back, if it does either.
func (o Op) SetsAside() (op string, aside, is bool) {
	if o.Kind != Set || o.Field != AsideField {
		return "", false, false
	}
	op, is = AsideOf(o.Entity)
	return op, is && string(o.Value) == "true", is
}

// Aside reports whether the state has the operation set aside. What sets others aside never stands aside itself.
func (s *State) Aside(id, entity string) bool {
	if _, is := AsideOf(entity); is {
		return false
	}
	return s.aside(AsideEntity(id, Private(entity)))
}

func (s *State) aside(entity string) bool {
	return string(s.Register(entity, AsideField).Value()) == "true"
}

// counts reports whether the fold may take the record: it is what it was sent as, harmless, and not set aside.
func (s *State) counts(r *Rec) bool {
	return r.Kind != Emptied && !s.Aside(r.ID, r.Entity) && r.Harmless()
}
