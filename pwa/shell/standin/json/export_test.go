package json

import (
	"fmt"
	"unsafe"
)

// Layout says what layout.go reads of a value's type, and of the types in it, for the test that holds it against reflect.
func Layout(value any) map[string]string {
	seen := map[string]string{}
	t, _ := take(value)
	describe(t, seen)
	return seen
}

func describe(t *header, seen map[string]string) {
	if seen[t.String()] != "" {
		return
	}
	text := fmt.Sprint(t.kind, " ", t.size, " ", t.direct())
	seen[t.String()] = text
	parts := (*elemType)(unsafe.Pointer(t))
	var inner []*header
	switch t.kind {
	case pointerKind, sliceKind:
		inner = append(inner, parts.first)
	case arrayKind:
		inner = append(inner, parts.first)
		text += fmt.Sprint(" ", (*arrayType)(unsafe.Pointer(t)).length)
	case mapKind:
		inner = append(inner, parts.first, parts.second)
	case interfaceKind:
		text += fmt.Sprint(" ", len((*interfaceType)(unsafe.Pointer(t)).methods))
	case structKind:
		for _, f := range (*structType)(unsafe.Pointer(t)).fields {
			name, tag := f.name.parts()
			text += fmt.Sprintf(" %s %q %v %v %d", name, tag, f.name.has(nameExported), f.name.has(nameEmbedded), f.offset)
			inner = append(inner, f.typ)
		}
	}
	for _, i := range inner {
		text += " " + i.String()
		describe(i, seen)
	}
	seen[t.String()] = text
	if p := t.pointerTo(); p != nil {
		seen["to "+t.String()] = p.String()
	}
}
