package json

import (
	"encoding"
	"errors"
	"math"
	"strconv"
	"unsafe"
)

// Marshal gives the value as JSON without white space, byte for byte as encoding/json writes it. Errors: numbers that are
// not finite, types that JSON or this package has nothing for, and what a [Marshaler] or text marshaler returns.
func Marshal(value any) ([]byte, error) {
	var e encoder
	if err := e.any(value); err != nil {
		return nil, err
	}
	return e.out, nil
}

type encoder struct {
	out   []byte
	depth int
}

func (e *encoder) add(text string) { e.out = append(e.out, text...) }

// any adds a value of whatever type.
func (e *encoder) any(value any) error {
	t, p := take(value)
	if t == nil {
		e.add("null")
		return nil
	}
	return e.value(p, shapeOf(t), false)
}

// value adds what a place holds. Pointers to the place are asked for its JSON only if it was reached by one, as a part of
// a list, or as a part of such a place.
func (e *encoder) value(p unsafe.Pointer, s *shape, reached bool) error {
	if reached && s.address != none {
		return e.itself(pointing(s.pointer, p), s)
	}
	if s.write != none && !(s.kind == pointerKind && *(*unsafe.Pointer)(p) == nil) {
		return e.itself(give(s.header, p), s)
	}
	if s.refuse != "" {
		return errors.New("json: cannot write " + s.String() + ": " + s.refuse)
	}
	switch k := s.kind; {
	case k == boolKind:
		e.out = strconv.AppendBool(e.out, *(*bool)(p))
	case k >= intKind && k <= int64Kind:
		e.out = strconv.AppendInt(e.out, int64(bits(p, s.size)), 10)
	case k >= uintKind && k <= uintptrKind:
		n := bits(p, s.size)
		if s.size < 8 {
			n &= 1<<(8*s.size) - 1 // not a sign
		}
		e.out = strconv.AppendUint(e.out, n, 10)
	case k == float64Kind:
		return e.float(*(*float64)(p), 64)
	case k == float32Kind:
		return e.float(float64(*(*float32)(p)), 32)
	case k == stringKind:
		e.out = quote(e.out, *(*string)(p))
	case k != structKind && k != arrayKind && *(*unsafe.Pointer)(p) == nil:
		e.add("null") // a pointer, map, slice or interface, whose first word tells
	default:
		return e.deeper(p, s, reached)
	}
	return nil
}

// itself adds what a value with a method for it writes.
func (e *encoder) itself(value any, s *shape) error {
	switch m := value.(type) {
	case Marshaler:
		raw, err := m.MarshalJSON()
		if err == nil {
			err = check(raw)
		}
		if err != nil {
			return &MarshalerError{s.String(), err}
		}
		e.out = compact(e.out, raw, true)
	case encoding.TextMarshaler:
		text, err := m.MarshalText()
		if err != nil {
			return &MarshalerError{s.String(), err}
		}
		e.out = quote(e.out, string(text))
	}
	return nil
}

// A MarshalerError says that a value's own method could not write it.
type MarshalerError struct {
	typ string
	err error
}

func (e *MarshalerError) Error() string { return "json: cannot write " + e.typ + ": " + e.err.Error() }

// Unwrap gives the method's error.
func (e *MarshalerError) Unwrap() error { return e.err }

// float adds a number in its shortest form, as ECMAScript does: with an exponent from 1e21 on and below 1e-6.
func (e *encoder) float(f float64, bits int) error {
	if math.IsInf(f, 0) || math.IsNaN(f) {
		return errors.New("json: cannot write a number that is not finite")
	}
	least, most := 1e-6, 1e21
	if bits == 32 {
		least, most = float64(float32(1e-6)), float64(float32(1e21))
	}
	form := byte('f')
	if size := math.Abs(f); size != 0 && (size < least || size >= most) {
		form = 'e'
	}
	e.out = strconv.AppendFloat(e.out, f, form, -1, bits)
	if n := len(e.out); form == 'e' && string(e.out[n-3:n-1]) == "-0" {
		e.out = append(e.out[:n-2], e.out[n-1])
	}
	return nil
}

// deeper adds a value that holds others.
func (e *encoder) deeper(p unsafe.Pointer, s *shape, reached bool) error {
	if e.depth++; e.depth > 4*maxDepth {
		return errors.New("json: " + s.String() + " nests too deep; it may hold itself")
	}
	var err error
	switch s.kind {
	case interfaceKind:
		err = e.any(s.inside(p))
	case pointerKind:
		err = e.value(*(*unsafe.Pointer)(p), s.elem, true)
	case structKind:
		err = e.object(p, s, reached)
	case mapKind:
		err = e.keyed(*(*unsafe.Pointer)(p), s)
	case sliceKind:
		list := *(*slice)(p)
		err = e.list(list.first, list.length, s.elem, true)
	case arrayKind:
		err = e.list(p, s.length, s.elem, reached)
	}
	e.depth--
	return err
}

func (e *encoder) list(p unsafe.Pointer, length int, s *shape, reached bool) error {
	e.add("[")
	for i := range length {
		if i > 0 {
			e.add(",")
		}
		if err := e.value(unsafe.Add(p, uintptr(i)*s.size), s, reached); err != nil {
			return err
		}
	}
	e.add("]")
	return nil
}

func (e *encoder) object(p unsafe.Pointer, s *shape, reached bool) error {
	before := "{"
	for i := range s.fields {
		f := &s.fields[i]
		part := unsafe.Add(p, f.offset)
		if f.omitEmpty && empty(part, f.shape) {
			continue
		}
		e.add(before)
		e.add(f.prefix)
		if err := e.value(part, f.shape, reached); err != nil {
			return err
		}
		before = ","
	}
	if before == "{" {
		e.add(before)
	}
	e.add("}")
	return nil
}

func empty(p unsafe.Pointer, s *shape) bool {
	switch k := s.kind; {
	case k == boolKind:
		return !*(*bool)(p)
	case k == float32Kind:
		return *(*float32)(p) == 0
	case k == float64Kind:
		return *(*float64)(p) == 0
	case k <= uintptrKind:
		return bits(p, s.size) == 0
	case k == pointerKind, k == interfaceKind:
		return *(*unsafe.Pointer)(p) == nil
	case k == stringKind:
		return *(*string)(p) == ""
	case k == sliceKind:
		return (*slice)(p).length == 0
	case k == mapKind:
		return mapLen(*(*unsafe.Pointer)(p)) == 0
	}
	return s.kind == arrayKind && s.length == 0
}

type member struct {
	key   string
	value unsafe.Pointer
}

// keyed adds a map, by its keys in order.
func (e *encoder) keyed(m unsafe.Pointer, s *shape) error {
	members := make([]member, 0, mapLen(m))
	var w walk
	for mapStart(s.header, m, &w); w.key != nil; mapNext(&w) {
		members = append(members, member{*(*string)(w.key), w.elem})
	}
	sort(members)
	e.add("{")
	for i, m := range members {
		if i > 0 {
			e.add(",")
		}
		e.out = append(quote(e.out, m.key), ':')
		if err := e.value(m.value, s.elem, false); err != nil {
			return err
		}
	}
	e.add("}")
	return nil
}

// sort puts members in the order of their keys, by D. L. Shell's method with D. E. Knuth's gaps: small, and
// quick enough for thousands.
func sort(members []member) {
	gap := 1
	for gap < len(members)/3 {
		gap = 3*gap + 1
	}
	for ; gap > 0; gap /= 3 {
		for i := gap; i < len(members); i++ {
			m := members[i]
			k := i
			for ; k >= gap && members[k-gap].key > m.key; k -= gap {
				members[k] = members[k-gap]
			}
			members[k] = m
		}
	}
}
