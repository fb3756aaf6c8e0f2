package fmt

import "unsafe"

// value prints one argument. The types that need no look inside come first.
func (p *printer) value(arg any, verb rune) {
	switch arg := arg.(type) {
	case nil:
		if verb == 'v' || verb == 'T' {
			p.pad([]byte("<nil>"), true)
		} else {
			p.bad(arg, verb)
		}
		return
	case string:
		if verb != 'T' {
			p.text(arg, verb)
			return
		}
	case int:
		if verb != 'T' {
			p.whole(uint64(arg), true, verb, arg)
			return
		}
	case []byte:
		if verb != 'T' {
			p.kind(arg, verb)
			return
		}
	}
	switch {
	case verb == 'T':
		p.text(typeOf(arg), 's')
	case p.plain || !p.words(arg, verb):
		p.kind(arg, verb)
	}
}

// words prints what an error or a Stringer says of itself, and returns false for a value or a verb that has no such words.
func (p *printer) words(arg any, verb rune) (said bool) {
	method := "Error"
	switch verb {
	case 'w':
		if _, ok := arg.(error); !ok || !p.wraps {
			p.bad(arg, verb)
			return true
		}
		verb = 'v'
	case 'v', 's', 'x', 'X', 'q':
	default:
		return false
	}
	defer func() {
		if reason := recover(); reason != nil {
			said = true
			p.panicIn(method, arg, verb, reason)
		}
	}()
	switch v := arg.(type) {
	case error:
		p.text(v.Error(), verb)
	case Stringer:
		method = "String"
		p.text(v.String(), verb)
	default:
		return false
	}
	return true
}

// panicIn prints <nil> for a nil pointer whose method could not bear it, and the reason of any other panic.
func (p *printer) panicIn(method string, arg any, verb rune, reason any) {
	if nilPointer(take(arg)) {
		p.add("<nil>")
		return
	}
	if p.panicked {
		panic(reason)
	}
	was := p.directive
	p.directive = directive{width: unset, precision: unset}
	p.fault(verb)
	p.add("PANIC=" + method + " method: ")
	p.panicked = true
	p.value(reason, 'v')
	p.panicked = false
	p.add(")")
	p.directive = was
}

// kind prints a value by what its type is made of.
func (p *printer) kind(arg any, verb rune) {
	t, at := take(arg)
	switch k := t.kind; {
	case k == boolKind:
		p.truth(*(*bool)(at), verb, arg)
	case k >= intKind && k <= int64Kind:
		p.whole(bits(at, t.size), true, verb, arg)
	case k >= uintKind && k <= uintptrKind:
		n := bits(at, t.size)
		if t.size < 8 {
			n &= 1<<(8*t.size) - 1 // not a sign
		}
		p.whole(n, false, verb, arg)
	case k == float32Kind:
		p.fraction(float64(*(*float32)(at)), 32, verb, arg)
	case k == float64Kind:
		p.fraction(*(*float64)(at), 64, verb, arg)
	case k == stringKind:
		p.string(*(*string)(at), verb, arg)
	case k == sliceKind:
		// Whatever its elements, a slice begins with a pointer to them and their number.
		p.list((*listType)(unsafe.Pointer(t)).elem, *(*unsafe.Pointer)(at), len(*(*[]struct{})(at)), verb)
	case k == arrayKind:
		p.list((*listType)(unsafe.Pointer(t)).elem, at, (*longType)(unsafe.Pointer(t)).count, verb)
	default:
		p.opaque(t, at, verb)
	}
}

// list prints bytes as text where the verb is one for text, and anything else as its elements in brackets.
func (p *printer) list(elem *header, first unsafe.Pointer, length int, verb rune) {
	if elem.kind == uint8Kind && (verb == 's' || verb == 'q' || verb == 'x' || verb == 'X') {
		p.text(string(unsafe.Slice((*byte)(first), length)), verb)
		return
	}
	p.add("[")
	for i := range length {
		if i > 0 {
			p.add(" ")
		}
		if e := give(elem, unsafe.Add(first, uintptr(i)*elem.size)); e == nil {
			p.add("<nil>")
		} else {
			p.value(e, verb)
		}
	}
	p.add("]")
}

func nilPointer(t *header, at unsafe.Pointer) bool {
	return t.kind == pointerKind && *(*unsafe.Pointer)(at) == nil
}

// opaque prints a nil pointer, or the type of a value that this package cannot look into.
func (p *printer) opaque(t *header, at unsafe.Pointer, verb rune) {
	if nilPointer(t, at) && verb == 'v' {
		p.pad([]byte("<nil>"), true)
		return
	}
	p.fault(verb)
	p.add(t.String() + ")")
}

// bad prints a verb that does not suit its argument, with that argument's type and value.
func (p *printer) bad(arg any, verb rune) {
	p.fault(verb)
	was := p.plain
	p.plain = true
	p.typed(arg)
	p.plain = was
	p.add(")")
}

func (p *printer) fault(verb rune) { p.add("%!" + string(verb) + "(") }

func (p *printer) typed(arg any) {
	if arg == nil {
		p.add("<nil>")
		return
	}
	p.add(typeOf(arg) + "=")
	p.value(arg, 'v')
}

func typeOf(arg any) string {
	t, _ := take(arg)
	return t.String()
}

func isString(arg any) bool {
	if arg == nil {
		return false
	}
	t, _ := take(arg)
	return t.kind == stringKind
}
