package job

import "strings"

// A harmful operation is set aside by an ordinary register: the entity "aside/ID" (in the owner's private log
// "own/aside/ID"), whose field "aside" is true or false and whose field "why" gives the reason. Who and when are the
// author and stamp of that operation. Only the owner may write there: [Role.May] forbids it to others in every build.
// Older builds keep it as an unknown register.
//
// Records are never altered or removed: sequence, seal, hash chain and digest stay, and so do the cursors of phones.
// Setting aside has three effects:
//
//   - The fold skips the operation, in whatever order the two come ([State.Stale]).
//   - The server stops sending it. It sends an [Emptied] record instead, with the real share of the digest. Phones
//     with and without the operation then get the same sum.
//   - A phone that returns lost records to a restored server leaves Emptied records out. Phones that pulled the
//     operation before return it with its seal, and the register comes back with the other records. If no phone does,
//     the operation is gone and the register names nothing.
//
// A phone of an older build treats an Emptied record as an unknown kind. Its fold is right, but its sum does not match
// the server's: it pulls the log again and then reports the mismatch, until a newer build pulls the log.
const (
	AsideField = "aside"
	AsideWhy   = "why"
	asideNoun  = "aside/"
	ownPrefix  = "own/"
)

// Emptied is the kind of a record that replaces one which the server does not send: one set aside, or not
// [Op.Harmless]. Nobody can make an operation of this kind.
const Emptied Kind = "emptied"

var asideFields = []Field{
	{Name: AsideField, Label: "Set aside", Kind: Flag, Default: "false"},
	{Name: AsideWhy, Label: "Why", Kind: LongText, Max: 400},
}

// SetAside makes the changes that set an operation aside, or undo that, in the shared or the private log.
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

// SetsAside returns the operation that this one is about, and whether it sets it aside or undoes that.
func (o Op) SetsAside() (op string, aside, is bool) {
	if o.Kind != Set || o.Field != AsideField {
		return "", false, false
	}
	op, is = AsideOf(o.Entity)
	return op, is && string(o.Value) == "true", is
}

// Aside reports whether the operation is set aside in the state. An operation that sets others aside never is.
func (s *State) Aside(id, entity string) bool {
	if _, is := AsideOf(entity); is {
		return false
	}
	return s.aside(AsideEntity(id, Private(entity)))
}

func (s *State) aside(entity string) bool {
	return string(s.Register(entity, AsideField).Value()) == "true"
}

// counts reports whether to fold the record: it is not emptied, harmless, and not set aside.
func (s *State) counts(r *Rec) bool {
	return r.Kind != Emptied && !s.Aside(r.ID, r.Entity) && r.Harmless()
}
