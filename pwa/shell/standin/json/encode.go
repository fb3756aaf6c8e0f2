package json

import (
	"encoding"
	"errors"
	"math"
	"reflect"
	"strconv"
)

// Marshal gives the value as JSON without white space, byte for byte as encoding/json writes it. Errors: numbers that are
// not finite, types that JSON or this package has nothing for, and what a [Marshaler] or text marshaler returns.
func Marshal(value any) ([]byte, error) {
	var e encoder
	if err := e.any(reflect.ValueOf(value)); err != nil {
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
func (e *encoder) any(v reflect.Value) error {
	if !v.IsValid() {
		e.add("null")
		return nil
	}
	return e.value(v, shapeOf(v.Type()))
}

func (e *encoder) value(v reflect.Value, s *shape) error {
	if s.address != none && v.CanAddr() {
		return e.itself(v.Addr().Interface(), s)
	}
	if s.write != none && !(s.kind == reflect.Pointer && v.IsNil()) {
		return e.itself(v.Interface(), s)
	}
	if s.refuse != "" {
		return errors.New("json: cannot write " + s.typ.String() + ": " + s.refuse)
	}
	switch s.kind {
	case reflect.Bool:
		e.out = strconv.AppendBool(e.out, v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		e.out = strconv.AppendInt(e.out, v.Int(), 10)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		e.out = strconv.AppendUint(e.out, v.Uint(), 10)
	case reflect.Float64:
		return e.float(v.Float(), 64)
	case reflect.Float32:
		return e.float(v.Float(), 32)
	case reflect.String:
		e.out = quote(e.out, v.String())
	case reflect.Pointer, reflect.Interface, reflect.Map, reflect.Slice:
		if !v.IsNil() {
			return e.deeper(v, s)
		}
		e.add("null")
	default:
		return e.deeper(v, s)
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
			return &MarshalerError{s.typ.String(), err}
		}
		e.out = compact(e.out, raw, true)
	case encoding.TextMarshaler:
		text, err := m.MarshalText()
		if err != nil {
			return &MarshalerError{s.typ.String(), err}
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
func (e *encoder) deeper(v reflect.Value, s *shape) error {
	if e.depth++; e.depth > 4*maxDepth {
		return errors.New("json: " + s.typ.String() + " nests too deep; it may hold itself")
	}
	var err error
	switch s.kind {
	case reflect.Interface:
		err = e.any(v.Elem())
	case reflect.Pointer:
		err = e.value(v.Elem(), s.elem)
	case reflect.Struct:
		err = e.object(v, s)
	case reflect.Map:
		err = e.keyed(v, s)
	default:
		e.add("[")
		for i := 0; i < v.Len() && err == nil; i++ {
			if i > 0 {
				e.add(",")
			}
			err = e.value(v.Index(i), s.elem)
		}
		e.add("]")
	}
	e.depth--
	return err
}

func (e *encoder) object(v reflect.Value, s *shape) error {
	before := "{"
	for i := range s.fields {
		f := &s.fields[i]
		part := f.of(v)
		if f.omitEmpty && empty(part, f.shape.kind) {
			continue
		}
		e.add(before)
		e.add(f.prefix)
		if err := e.value(part, f.shape); err != nil {
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

func empty(v reflect.Value, kind reflect.Kind) bool {
	switch kind {
	case reflect.Bool:
		return !v.Bool()
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return v.Int() == 0
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		return v.Uint() == 0
	case reflect.Float32, reflect.Float64:
		return v.Float() == 0
	case reflect.Pointer, reflect.Interface:
		return v.IsNil()
	case reflect.String, reflect.Slice, reflect.Map, reflect.Array:
		return v.Len() == 0
	}
	return false
}

type member struct {
	key   string
	value reflect.Value
}

// keyed adds a map, by its keys in order.
func (e *encoder) keyed(v reflect.Value, s *shape) error {
	members := make([]member, 0, v.Len())
	for each := v.MapRange(); each.Next(); {
		members = append(members, member{each.Key().String(), each.Value()})
	}
	sort(members)
	e.add("{")
	for i, m := range members {
		if i > 0 {
			e.add(",")
		}
		e.out = append(quote(e.out, m.key), ':')
		if err := e.value(m.value, s.elem); err != nil {
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
