package json

import (
	"encoding"
	"strings"
	"sync"
	"unsafe"
)

// Marshaler is a value that writes itself as JSON.
type Marshaler interface {
	MarshalJSON() ([]byte, error)
}

// Unmarshaler is a value that reads itself from valid JSON, null too. It must not keep the bytes.
type Unmarshaler interface {
	UnmarshalJSON([]byte) error
}

// A method says how values of a type write or read themselves.
type method uint8

const (
	none method = iota
	asJSON
	asText
)

// A shape is what is remembered of a type: once made, it does not change.
type shape struct {
	*header
	pointer        *header // the type of pointers to it, nil if they have no methods
	write, address method  // how a value and how a pointer to one writes itself
	read           method  // how a pointer to a value reads itself
	refuse         string  // why the type cannot be written or read, empty if it can
	open           bool    // an interface that holds anything
	elem           *shape  // of what a pointer, list or map holds
	key            *shape  // of a map
	length         int     // of an array
	fields         []field // of a struct, in their order
}

// A field is one member of a struct, perhaps of one embedded in it.
type field struct {
	name      string
	prefix    string // the name quoted, with its colon
	offset    uintptr
	depth     int // how many structs embedded in one another it lies in
	shape     *shape
	tagged    bool
	omitEmpty bool
}

var (
	mutex  sync.Mutex
	shapes = map[*header]*shape{}
)

func shapeOf(t *header) *shape {
	mutex.Lock()
	defer mutex.Unlock()
	return makeShape(t)
}

// makeShape gives the type's shape and makes those of its parts; the mutex is held.
func makeShape(t *header) *shape {
	if s := shapes[t]; s != nil {
		return s
	}
	s := &shape{header: t, pointer: t.pointerTo()}
	shapes[t] = s // a type may be part of itself
	if t.kind != interfaceKind {
		s.write = writes(give(t, newPlace(t)))
	}
	if s.pointer != nil {
		place := pointing(s.pointer, newPlace(t))
		s.address = writes(place)
		switch place.(type) {
		case Unmarshaler:
			s.read = asJSON
		case encoding.TextUnmarshaler:
			s.read = asText
		}
	}
	parts := (*elemType)(unsafe.Pointer(t)) // read for kinds that have them only
	switch k := t.kind; {
	case k == interfaceKind:
		s.open = len((*interfaceType)(unsafe.Pointer(t)).methods) == 0
	case k == mapKind:
		s.key = makeShape(parts.first)
		if s.key.kind != stringKind || s.key.read != none {
			s.refuse = "its keys are not plain texts"
		}
		s.elem = makeShape(parts.second)
	case k == sliceKind, k == arrayKind, k == pointerKind:
		s.elem = makeShape(parts.first)
		if k == arrayKind {
			s.length = (*arrayType)(unsafe.Pointer(t)).length
		}
		if k == sliceKind && s.elem.kind == uint8Kind {
			s.refuse = "base64 is left out"
		}
	case k == structKind:
		s.collect(t, 0, 0)
		s.hide()
	case k > float64Kind && k != stringKind:
		s.refuse = "JSON has nothing like it"
	}
	return s
}

func writes(value any) method {
	switch value.(type) {
	case Marshaler:
		return asJSON
	case encoding.TextMarshaler:
		return asText
	}
	return none
}

// collect adds the fields of a struct that is s itself or embedded in it so deep, at that offset.
func (s *shape) collect(t *header, offset uintptr, depth int) {
	for _, f := range (*structType)(unsafe.Pointer(t)).fields {
		own, tags := f.name.parts()
		_, rest, _ := strings.Cut(tags, `json:"`)
		tag, _, _ := strings.Cut(rest, `"`)
		if tag == "-" {
			continue
		}
		name, option, more := strings.Cut(tag, ",")
		kind, embedded := f.typ.kind, f.name.has(nameEmbedded)
		if !f.name.has(nameExported) {
			if !embedded || kind != structKind {
				continue
			}
			if name != "" {
				s.refuse = "it names a struct that it embeds unexported"
			}
		}
		if more && option != "omitempty" && option != "" {
			s.refuse = "the tag " + tag + " is not known"
		}
		if embedded && name == "" {
			if kind == pointerKind {
				s.refuse = "it embeds a pointer"
			}
			if kind == structKind {
				s.collect(f.typ, offset+f.offset, depth+1)
				continue
			}
		}
		tagged := name != ""
		if !tagged {
			name = own
		}
		s.fields = append(s.fields, field{name, string(quote(nil, name)) + ":", offset + f.offset, depth, makeShape(f.typ), tagged, more && option != ""})
	}
}

// hide drops the fields that others of the same name hide: of several the least embedded counts, among these the one
// named by its tag, and none if that does not settle it.
func (s *shape) hide() {
	var seen []field
	for i, f := range s.fields {
		hidden := false
		for k, g := range s.fields {
			if k != i && g.name == f.name && (g.depth < f.depth || g.depth == f.depth && (g.tagged || !f.tagged)) {
				hidden = true
			}
		}
		if !hidden {
			seen = append(seen, f)
		}
	}
	s.fields = seen
}

// find gives the field that a key of an object means, nil if there is none: the one of that name, or else the first whose
// name differs only in small and capital letters.
func (s *shape) find(key []byte) *field {
	for i := range s.fields {
		if s.fields[i].name == string(key) {
			return &s.fields[i]
		}
	}
	for i := range s.fields {
		if sameButCase(key, s.fields[i].name) {
			return &s.fields[i]
		}
	}
	return nil
}
