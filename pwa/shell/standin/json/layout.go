package json

import "unsafe"

// What this file knows of the compiler's layout of types and values is all that the package needs of reflect, which would
// weigh more than the rest of JSON together. A test holds it against reflect for every type that the app reads or writes.

// A kind is a type's, by the compiler's numbers.
type kind uint8

const (
	boolKind       kind = 1
	intKind        kind = 2
	int64Kind      kind = 6
	uintKind       kind = 7
	uint8Kind      kind = 8
	uintptrKind    kind = 12
	float32Kind    kind = 13
	float64Kind    kind = 14
	complex128Kind kind = 16
	arrayKind      kind = 17
	funcKind       kind = 19
	interfaceKind  kind = 20
	mapKind        kind = 21
	pointerKind    kind = 22
	sliceKind      kind = 23
	stringKind     kind = 24
	structKind     kind = 25
)

// Each type's description begins with a header; what follows depends on the kind.
type header struct {
	size, pointers uintptr
	hash           uint32
	flags          uint8
	align          [2]uint8
	kind           kind
	equal          unsafe.Pointer
	marks          unsafe.Pointer
	text, pointer  int32
}

// elemType is the description of a pointer or slice type, and the beginning of an array type's and a map type's.
type elemType struct {
	header
	first, second *header
}

type arrayType struct {
	elemType
	length int
}

type interfaceType struct {
	header
	path    name
	methods []struct{ name, typ int32 }
}

type structType struct {
	header
	path   name
	fields []struct {
		name   name
		typ    *header
		offset uintptr
	}
}

// A name points to flags, then to a text with its length before it, then to a field's tag in the same way.
type name struct{ flags *byte }

const (
	nameExported = 1 << iota
	nameTagged
	_
	nameEmbedded
)

func (n name) has(flag byte) bool { return *n.flags&flag != 0 }

// parts gives the text and the tag.
func (n name) parts() (text, tag string) {
	text, end := counted(unsafe.Add(unsafe.Pointer(n.flags), 1))
	if n.has(nameTagged) {
		tag, _ = counted(end)
	}
	return text, tag
}

// counted reads a length, in groups of seven bits from the lowest on, and as many bytes, and gives where they end.
func counted(p unsafe.Pointer) (string, unsafe.Pointer) {
	length := 0
	for shift := 0; ; shift += 7 {
		b := *(*byte)(p)
		p = unsafe.Add(p, 1)
		length |= int(b&0x7f) << shift
		if b < 0x80 {
			return unsafe.String((*byte)(p), length), unsafe.Add(p, length)
		}
	}
}

// String gives the type as Go code writes it.
func (t *header) String() string {
	const extraStar = 2
	text, _ := name{(*byte)(resolveNameOff(unsafe.Pointer(t), t.text))}.parts()
	if t.flags&extraStar != 0 {
		text = text[1:]
	}
	return text
}

// pointerTo gives the type of pointers to this one, nil if the program has none; then such pointers have no methods, since
// the compiler describes them for every type where they may have some.
func (t *header) pointerTo() *header {
	if t.pointer == 0 {
		return nil
	}
	return (*header)(resolveTypeOff(unsafe.Pointer(t), t.pointer))
}

// direct reports whether an interface holds a value of this type itself and not a pointer to it: that is so for what is
// one pointer.
func (t *header) direct() bool {
	return t.size == t.pointers && t.size == unsafe.Sizeof(uintptr(0))
}

// held is what an empty interface is made of, and a slice, and any other interface, whose type stands one word into what
// its first word points to.
type (
	held struct {
		typ  *header
		word unsafe.Pointer
	}
	slice struct {
		first            unsafe.Pointer
		length, capacity int
	}
	methods struct {
		table *struct{ asked, typ *header }
		word  unsafe.Pointer
	}
)

// take gives the type of a value and a place that holds it, which must not be written to. The type of nil is nil.
func take(value any) (*header, unsafe.Pointer) {
	h := (*held)(unsafe.Pointer(&value))
	if h.typ != nil && h.typ.direct() {
		return h.typ, unsafe.Pointer(&h.word)
	}
	return h.typ, h.word
}

// give makes an interface of the value in a place. The value may change with the place, so it is for use at once.
func give(t *header, p unsafe.Pointer) (value any) {
	if t.direct() {
		p = *(*unsafe.Pointer)(p)
	}
	*(*held)(unsafe.Pointer(&value)) = held{t, p}
	return value
}

// pointing makes an interface of a pointer to the place; t is the pointer's type.
func pointing(t *header, p unsafe.Pointer) any { return give(t, unsafe.Pointer(&p)) }

// inside gives what an interface in a place holds.
func (s *shape) inside(p unsafe.Pointer) (value any) {
	if s.open {
		return *(*any)(p)
	}
	if m := (*methods)(p); m.table != nil {
		*(*held)(unsafe.Pointer(&value)) = held{m.table.typ, m.word}
	}
	return value
}

// bits gives a whole number of a size in bytes, filled up with its sign if it has one.
func bits(p unsafe.Pointer, size uintptr) uint64 {
	switch size {
	case 1:
		return uint64(*(*int8)(p))
	case 2:
		return uint64(*(*int16)(p))
	case 4:
		return uint64(*(*int32)(p))
	}
	return *(*uint64)(p)
}

func setBits(p unsafe.Pointer, size uintptr, n uint64) {
	switch size {
	case 1:
		*(*uint8)(p) = uint8(n)
	case 2:
		*(*uint16)(p) = uint16(n)
	case 4:
		*(*uint32)(p) = uint32(n)
	default:
		*(*uint64)(p) = n
	}
}

// A walk goes through a map. The runtime fills it in.
type walk struct {
	key, elem unsafe.Pointer
	_, _      unsafe.Pointer // its own
}

// These are the runtime's, which offers them to reflect under that name and keeps them as they are for others.

//go:linkname resolveNameOff reflect.resolveNameOff
func resolveNameOff(base unsafe.Pointer, offset int32) unsafe.Pointer

//go:linkname resolveTypeOff reflect.resolveTypeOff
func resolveTypeOff(base unsafe.Pointer, offset int32) unsafe.Pointer

//go:linkname newPlace reflect.unsafe_New
func newPlace(t *header) unsafe.Pointer

//go:linkname newPlaces reflect.unsafe_NewArray
func newPlaces(t *header, n int) unsafe.Pointer

//go:linkname clearPlace reflect.typedmemclr
func clearPlace(t *header, p unsafe.Pointer)

// grow gives a longer slice of as many values; more must not have fitted.
//
//go:linkname grow reflect.growslice
func grow(elem *header, old slice, more int) slice

//go:linkname makeMap reflect.makemap
func makeMap(t *header, n int) unsafe.Pointer

//go:linkname mapLen reflect.maplen
func mapLen(m unsafe.Pointer) int

//go:linkname mapAssign reflect.mapassign0
func mapAssign(t *header, m, key, elem unsafe.Pointer)

//go:linkname mapStart reflect.mapiterinit
func mapStart(t *header, m unsafe.Pointer, w *walk)

//go:linkname mapNext reflect.mapiternext
func mapNext(w *walk)
