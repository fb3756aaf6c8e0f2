package json

import (
	"encoding"
	"errors"
	"strconv"
	"unsafe"
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
	t, p := take(target)
	if t == nil || t.kind != pointerKind || *(*unsafe.Pointer)(p) == nil {
		return errors.New("json: the target is not a pointer to a place")
	}
	if err := d.value(*(*unsafe.Pointer)(p), shapeOf(t).elem); err != nil {
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
	typ := s.String()
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
func (d *decoder) value(p unsafe.Pointer, s *shape) error {
	c := d.next()
	p, s = settle(p, s, c == 'n')
	from := d.at
	if s.read == asJSON {
		return pointing(s.pointer, p).(Unmarshaler).UnmarshalJSON(d.passed())
	}
	if s.read == asText && c != 'n' {
		raw := d.passed()
		if c != '"' {
			d.misfit(from, s)
			return nil
		}
		return pointing(s.pointer, p).(encoding.TextUnmarshaler).UnmarshalText(unquote(raw))
	}
	switch {
	case c == 'n' && s.refuse == "":
		d.skip()
		switch s.kind {
		case interfaceKind, pointerKind, mapKind, sliceKind:
			clearPlace(s.header, p)
		}
	case s.open:
		if x := d.any(); x != nil {
			*(*any)(p) = x
		}
	case c == '{' && s.refuse == "" && s.kind == mapKind:
		return d.keyed((*unsafe.Pointer)(p), s)
	case c == '{' && s.refuse == "" && s.kind == structKind:
		return d.object(p, s)
	case c == '[' && s.refuse == "" && s.kind == sliceKind:
		return d.list((*slice)(p), s)
	case c == '[' && s.refuse == "" && s.kind == arrayKind:
		return d.array(p, s)
	default:
		if raw := d.passed(); !plain(p, s, raw) {
			d.misfit(from, s)
		}
	}
	return nil
}

// settle follows pointers, and interfaces that hold one, to the place that takes a value; missing ones are made. A null
// goes to the first pointer.
func settle(p unsafe.Pointer, s *shape, null bool) (unsafe.Pointer, *shape) {
	for range maxDepth { // an interface may hold its own address
		switch s.kind {
		case interfaceKind:
			t, held := take(s.inside(p))
			if t == nil || t.kind != pointerKind || *(*unsafe.Pointer)(held) == nil {
				return p, s
			}
			elem := shapeOf(t).elem
			if null && elem.kind != pointerKind {
				return p, s
			}
			p, s = *(*unsafe.Pointer)(held), elem
		case pointerKind:
			if null {
				return p, s
			}
			at := (*unsafe.Pointer)(p)
			if *at == nil {
				*at = newPlace(s.elem.header)
			}
			p, s = *at, s.elem
		default:
			return p, s
		}
	}
	return p, s
}

// plain stores a text, a number or a truth value, and reports whether it fits.
func plain(p unsafe.Pointer, s *shape, raw []byte) bool {
	c := raw[0]
	width := 8 * int(s.size)
	switch k := s.kind; {
	case k == boolKind:
		if c != 't' && c != 'f' {
			return false
		}
		*(*bool)(p) = c == 't'
	case k == stringKind:
		if c != '"' {
			return false
		}
		*(*string)(p) = string(unquote(raw))
	case k >= intKind && k <= int64Kind:
		n, err := strconv.ParseInt(string(raw), 10, width)
		if err != nil {
			return false
		}
		setBits(p, s.size, uint64(n))
	case k >= uintKind && k <= uintptrKind:
		n, err := strconv.ParseUint(string(raw), 10, width)
		if err != nil {
			return false
		}
		setBits(p, s.size, n)
	case k == float32Kind || k == float64Kind:
		f, err := strconv.ParseFloat(string(raw), width)
		if err != nil {
			return false
		}
		if k == float32Kind {
			*(*float32)(p) = float32(f)
		} else {
			*(*float64)(p) = f
		}
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

func (d *decoder) list(l *slice, s *shape) error {
	i := 0
	for more := d.open(); more; more = d.more() {
		if i >= l.capacity {
			*l = grow(s.elem.header, *l, 1)
		}
		l.length = max(l.length, i+1)
		if err := d.value(unsafe.Add(l.first, uintptr(i)*s.elem.size), s.elem); err != nil {
			return err
		}
		i++
	}
	if i == 0 {
		*l = slice{first: newPlaces(s.elem.header, 0)}
	}
	l.length = i
	return nil
}

func (d *decoder) array(p unsafe.Pointer, s *shape) error {
	i := 0
	for more := d.open(); more; more = d.more() {
		if i >= s.length {
			d.passed()
		} else if err := d.value(unsafe.Add(p, uintptr(i)*s.elem.size), s.elem); err != nil {
			return err
		}
		i++
	}
	for ; i < s.length; i++ {
		clearPlace(s.elem.header, unsafe.Add(p, uintptr(i)*s.elem.size))
	}
	return nil
}

func (d *decoder) keyed(m *unsafe.Pointer, s *shape) error {
	if *m == nil {
		*m = makeMap(s.header, 0)
	}
	part := newPlace(s.elem.header)
	for more := d.open(); more; more = d.more() {
		key := string(d.key())
		clearPlace(s.elem.header, part)
		if err := d.value(part, s.elem); err != nil {
			return err
		}
		mapAssign(s.header, *m, unsafe.Pointer(&key), part)
	}
	return nil
}

func (d *decoder) object(p unsafe.Pointer, s *shape) error {
	for more := d.open(); more; more = d.more() {
		key := d.key()
		f := s.find(key)
		if f == nil {
			if d.strict {
				d.note(errors.New("json: unknown field " + strconv.Quote(string(key))))
			}
			d.passed()
		} else if err := d.value(unsafe.Add(p, f.offset), f.shape); err != nil {
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
		t, _ := take(f)
		d.misfit(from, shapeOf(t))
		return nil
	}
	return f
}
