package json

import (
	"encoding"
	"errors"
	"reflect"
	"strconv"
)

// Unmarshal reads JSON into what target points to, as encoding/json does. Errors: a [*SyntaxError], and then nothing was
// stored; an [*UnmarshalTypeError] for the first value that fits its place ill, and then the others were stored; and what
// an [Unmarshaler] or text unmarshaler returns, which ends the reading.
func Unmarshal(data []byte, target any) error {
	if err := check(data); err != nil {
		return err
	}
	return (&decoder{scanner: scanner{data: data}}).into(target)
}

// An UnmarshalTypeError says that a value cannot stand where it was found.
type UnmarshalTypeError struct {
	Value  string // the beginning of the value
	Offset int64  // where the value begins, from 0
	typ    string
}

func (e *UnmarshalTypeError) Error() string {
	return "json: cannot read " + e.Value + " at byte " + strconv.Itoa(int(e.Offset)) + " as " + e.typ
}

// A decoder reads data that is known to be valid.
type decoder struct {
	scanner
	strict bool  // unknown fields are errors
	first  error // the first that did not end the reading
}

func (d *decoder) into(target any) error {
	v := reflect.ValueOf(target)
	if v.Kind() != reflect.Pointer || v.IsNil() {
		return errors.New("json: the target is not a pointer to a place")
	}
	if err := d.value(v, shapeOf(v.Type())); err != nil {
		return err
	}
	return d.first
}

func (d *decoder) note(err error) {
	if d.first == nil {
		d.first = err
	}
}

// misfit notes that the value between from and at does not fit.
func (d *decoder) misfit(from int, s *shape) {
	what := d.data[from:d.at]
	if len(what) > 40 {
		what = append(what[:40:40], "..."...)
	}
	typ := s.typ.String()
	if s.refuse != "" {
		typ += ": " + s.refuse
	}
	d.note(&UnmarshalTypeError{string(what), int64(from), typ})
}

// passed passes a value and gives its bytes.
func (d *decoder) passed() []byte {
	d.next()
	from := d.at
	d.skip()
	return d.data[from:d.at]
}

// value reads the next value into a place. What it returns ends the reading.
func (d *decoder) value(v reflect.Value, s *shape) error {
	c := d.next()
	v, s = settle(v, s, c == 'n')
	from := d.at
	if s.read == asJSON {
		return v.Addr().Interface().(Unmarshaler).UnmarshalJSON(d.passed())
	}
	if s.read == asText && c != 'n' {
		raw := d.passed()
		if c != '"' {
			d.misfit(from, s)
			return nil
		}
		return v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText(unquote(raw))
	}
	switch {
	case c == 'n' && s.refuse == "":
		d.skip()
		switch s.kind {
		case reflect.Interface, reflect.Pointer, reflect.Map, reflect.Slice:
			v.Set(s.zero)
		}
	case s.open:
		if x := d.any(); x != nil {
			v.Set(reflect.ValueOf(x))
		}
	case c == '{' && s.refuse == "" && s.kind == reflect.Map:
		return d.keyed(v, s)
	case c == '{' && s.refuse == "" && s.kind == reflect.Struct:
		return d.object(v, s)
	case c == '[' && s.refuse == "" && (s.kind == reflect.Slice || s.kind == reflect.Array):
		return d.list(v, s)
	default:
		if raw := d.passed(); !plain(v, s, raw) {
			d.misfit(from, s)
		}
	}
	return nil
}

// settle follows pointers, and interfaces that hold one, to the place that takes a value; missing ones are made. A null
// goes to the first pointer that can be set.
func settle(v reflect.Value, s *shape, null bool) (reflect.Value, *shape) {
	for range maxDepth { // an interface may hold its own address
		switch s.kind {
		case reflect.Interface:
			held := v.Elem()
			if held.Kind() != reflect.Pointer || held.IsNil() || null && held.Elem().Kind() != reflect.Pointer {
				return v, s
			}
			v, s = held, shapeOf(held.Type())
		case reflect.Pointer:
			if null && v.CanSet() {
				return v, s
			}
			if v.IsNil() {
				v.Set(reflect.New(s.elem.typ))
			}
			v, s = v.Elem(), s.elem
		default:
			return v, s
		}
	}
	return v, s
}

// plain stores a text, a number or a truth value, and reports whether it fits.
func plain(v reflect.Value, s *shape, raw []byte) bool {
	c := raw[0]
	switch s.kind {
	case reflect.Bool:
		if c != 't' && c != 'f' {
			return false
		}
		v.SetBool(c == 't')
	case reflect.String:
		if c != '"' {
			return false
		}
		v.SetString(string(unquote(raw)))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		n, err := strconv.ParseInt(string(raw), 10, 8*int(s.typ.Size()))
		if err != nil {
			return false
		}
		v.SetInt(n)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		n, err := strconv.ParseUint(string(raw), 10, 8*int(s.typ.Size()))
		if err != nil {
			return false
		}
		v.SetUint(n)
	case reflect.Float32, reflect.Float64:
		f, err := strconv.ParseFloat(string(raw), 8*int(s.typ.Size()))
		if err != nil {
			return false
		}
		v.SetFloat(f)
	default:
		return false
	}
	return true
}

// open passes an opening bracket and reports whether anything lies behind it; if not, it passes the closing one too.
func (d *decoder) open() bool {
	c := d.next()
	d.at++
	if d.next() == c+2 {
		d.at++
		return false
	}
	return true
}

// more passes a comma or a closing bracket and reports whether it was a comma.
func (d *decoder) more() bool {
	c := d.next()
	d.at++
	return c == ','
}

// key passes the key of an object's member, with the colon behind it, and gives it unquoted.
func (d *decoder) key() []byte {
	key := unquote(d.passed())
	d.next()
	d.at++
	return key
}

func (d *decoder) list(v reflect.Value, s *shape) error {
	i := 0
	for more := d.open(); more; more = d.more() {
		if s.kind == reflect.Slice {
			if i >= v.Cap() {
				v.Grow(1)
			}
			if i >= v.Len() {
				v.SetLen(i + 1)
			}
		}
		if i >= v.Len() {
			d.passed()
		} else if err := d.value(v.Index(i), s.elem); err != nil {
			return err
		}
		i++
	}
	if s.kind == reflect.Array {
		for ; i < v.Len(); i++ {
			v.Index(i).Set(s.elem.zero)
		}
		return nil
	}
	if i == 0 {
		v.Set(reflect.MakeSlice(s.typ, 0, 0))
	}
	v.SetLen(i)
	return nil
}

func (d *decoder) keyed(v reflect.Value, s *shape) error {
	if v.IsNil() {
		v.Set(reflect.MakeMap(s.typ))
	}
	key, part := reflect.New(s.key.typ).Elem(), reflect.New(s.elem.typ).Elem()
	for more := d.open(); more; more = d.more() {
		key.SetString(string(d.key()))
		part.Set(s.elem.zero)
		if err := d.value(part, s.elem); err != nil {
			return err
		}
		v.SetMapIndex(key, part)
	}
	return nil
}

func (d *decoder) object(v reflect.Value, s *shape) error {
	for more := d.open(); more; more = d.more() {
		key := d.key()
		f := s.find(key)
		if f == nil {
			if d.strict {
				d.note(errors.New("json: unknown field " + strconv.Quote(string(key))))
			}
			d.passed()
		} else if err := d.value(f.of(v), f.shape); err != nil {
			return err
		}
	}
	return nil
}

// any reads the next value into what an empty interface holds for it: nil, bool, float64, string, []any or
// map[string]any. A number too large gives nil and is noted.
func (d *decoder) any() any {
	switch c := d.next(); c {
	case '{':
		object := map[string]any{}
		for more := d.open(); more; more = d.more() {
			key := string(d.key())
			object[key] = d.any()
		}
		return object
	case '[':
		list := []any{}
		for more := d.open(); more; more = d.more() {
			list = append(list, d.any())
		}
		return list
	case '"':
		return string(unquote(d.passed()))
	case 't', 'f', 'n':
		d.passed()
		if c == 'n' {
			return nil
		}
		return c == 't'
	}
	from := d.at
	f, err := strconv.ParseFloat(string(d.passed()), 64)
	if err != nil {
		d.misfit(from, shapeOf(reflect.TypeOf(f)))
		return nil
	}
	return f
}
