package fmt

import "unsafe"

// What this file knows of the compiler's layout of types and values is all that the package needs of reflect, which would
// weigh several times as much as the package itself. A test holds it against reflect.

// A kind is a type's, by the compiler's numbers.
type kind uint8

const (
	boolKind    kind = 1
	intKind     kind = 2
	int64Kind   kind = 6
	uintKind    kind = 7
	uint8Kind   kind = 8
	uintptrKind kind = 12
	float32Kind kind = 13
	float64Kind kind = 14
	arrayKind   kind = 17
	ifaceKind   kind = 20
	pointerKind kind = 22
	sliceKind   kind = 23
	stringKind  kind = 24
)

// Each type's description begins with a header; that of a list type goes on with the type of its elements, that of an array
// type, behind a word more, with its length, that of an interface type, there too, with the number of its methods.
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

type listType struct {
	header
	elem *header
}

type longType struct {
	header
	_     [2]unsafe.Pointer
	count int
}

// String gives the type as Go code writes it: text behind a byte of flags and the length in groups of seven bits, which
// perhaps begins with a star too many.
func (t *header) String() string {
	p := unsafe.Add(resolveNameOff(unsafe.Pointer(t), t.text), 1)
	length := 0
	for shift := 0; ; shift += 7 {
		b := *(*byte)(p)
		p = unsafe.Add(p, 1)
		length |= int(b&0x7f) << shift
		if b < 0x80 {
			break
		}
	}
	return unsafe.String((*byte)(p), length)[t.flags>>1&1:]
}

// The runtime offers this to reflect under that name and keeps it as it is for others.
//
//go:linkname resolveNameOff reflect.resolveNameOff
func resolveNameOff(base unsafe.Pointer, offset int32) unsafe.Pointer

// held is what an empty interface is made of. It holds what is one pointer itself, and a pointer to anything else.
type held struct {
	typ  *header
	word unsafe.Pointer
}

func (t *header) direct() bool {
	return t.size == t.pointers && t.size == unsafe.Sizeof(uintptr(0))
}

// take gives the type of a value that is not nil and a place that holds it, which must not be written to.
func take(value any) (*header, unsafe.Pointer) {
	h := (*held)(unsafe.Pointer(&value))
	if h.typ.direct() {
		return h.typ, unsafe.Pointer(&h.word)
	}
	return h.typ, h.word
}

// give makes an interface of the value in a place. What an interface there holds comes without it, found by the first
// word, which is the type or, where methods are asked for, points to a table with the type in its second.
func give(t *header, p unsafe.Pointer) (value any) {
	made := held{t, p}
	switch {
	case t.kind == ifaceKind:
		made = *(*held)(p)
		if made.typ != nil && (*longType)(unsafe.Pointer(t)).count > 0 {
			made.typ = (*[2]*header)(unsafe.Pointer(made.typ))[1]
		}
	case t.direct():
		made.word = *(*unsafe.Pointer)(p)
	}
	*(*held)(unsafe.Pointer(&value)) = made
	return value
}

// bits gives a whole number of a size in bytes, filled up with its sign.
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
