package json

import (
	"encoding"
	"reflect"
	"strings"
	"sync"
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
	typ            reflect.Type
	kind           reflect.Kind
	zero           reflect.Value
	write, address method  // how a value and how a pointer to one writes itself
	read           method  // how a pointer to a value reads itself
	refuse         string  // why the type cannot be written or read, empty if it can
	open           bool    // an interface that holds anything
	elem           *shape  // of what a pointer, list or map holds
	key            *shape  // of a map
	fields         []field // of a struct, in their order
}

// A field is one member of a struct, perhaps of one embedded in it.
type field struct {
	name      string
	prefix    string // the name quoted, with its colon
	path      []int  // from the struct through those embedded
	shape     *shape
	tagged    bool
	omitEmpty bool
}

var (
	mutex  sync.Mutex
	shapes = map[reflect.Type]*shape{}
)

func shapeOf(t reflect.Type) *shape {
	mutex.Lock()
	defer mutex.Unlock()
	return makeShape(t)
}

// makeShape gives the type's shape and makes those of its parts; the mutex is held.
func makeShape(t reflect.Type) *shape {
	if s := shapes[t]; s != nil {
		return s
	}
	place := reflect.New(t)
	s := &shape{typ: t, kind: t.Kind(), zero: place.Elem()}
	shapes[t] = s // a type may be part of itself
	s.write, s.address = writes(s.zero.Interface()), writes(place.Interface())
	switch place.Interface().(type) {
	case Unmarshaler:
		s.read = asJSON
	case encoding.TextUnmarshaler:
		s.read = asText
	}
	switch s.kind {
	case reflect.Interface:
		s.open = t.NumMethod() == 0
	case reflect.Map:
		s.key = makeShape(t.Key())
		if s.key.kind != reflect.String || s.key.read != none {
			s.refuse = "its keys are not plain texts"
		}
		s.elem = makeShape(t.Elem())
	case reflect.Slice, reflect.Array, reflect.Pointer:
		s.elem = makeShape(t.Elem())
		if s.kind == reflect.Slice && s.elem.kind == reflect.Uint8 {
			s.refuse = "base64 is left out"
		}
	case reflect.Struct:
		s.collect(t, nil)
		s.hide()
	case reflect.Chan, reflect.Func, reflect.UnsafePointer, reflect.Complex64, reflect.Complex128:
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

// collect adds the fields of a struct that is s itself or embedded in it under the path.
func (s *shape) collect(t reflect.Type, path []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		_, rest, _ := strings.Cut(string(f.Tag), `json:"`)
		tag, _, _ := strings.Cut(rest, `"`)
		if tag == "-" {
			continue
		}
		name, option, more := strings.Cut(tag, ",")
		kind := f.Type.Kind()
		if f.PkgPath != "" && !(f.Anonymous && kind == reflect.Struct) {
			continue
		}
		if f.PkgPath != "" && name != "" {
			s.refuse = "it names a struct that it embeds unexported"
		}
		if more && option != "omitempty" && option != "" {
			s.refuse = "the tag " + tag + " is not known"
		}
		at := append(path[:len(path):len(path)], i)
		if f.Anonymous && name == "" {
			if kind == reflect.Pointer {
				s.refuse = "it embeds a pointer"
			}
			if kind == reflect.Struct {
				s.collect(f.Type, at)
				continue
			}
		}
		tagged := name != ""
		if !tagged {
			name = f.Name
		}
		s.fields = append(s.fields, field{name, string(quote(nil, name)) + ":", at, makeShape(f.Type), tagged, more && option != ""})
	}
}

// hide drops the fields that others of the same name hide: of several the least embedded counts, among these the one
// named by its tag, and none if that does not settle it.
func (s *shape) hide() {
	var seen []field
	for i, f := range s.fields {
		hidden := false
		for k, g := range s.fields {
			if k != i && g.name == f.name && (len(g.path) < len(f.path) || len(g.path) == len(f.path) && (g.tagged || !f.tagged)) {
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

// of gives the field's value in a struct.
func (f *field) of(v reflect.Value) reflect.Value {
	for _, i := range f.path {
		v = v.Field(i)
	}
	return v
}
