package fmt

import "reflect"

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
		p.text(reflect.TypeOf(arg).String(), 's')
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
	if v := reflect.ValueOf(arg); v.Kind() == reflect.Pointer && v.IsNil() {
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
	v := reflect.ValueOf(arg)
	switch k := v.Kind(); k {
	case reflect.Bool:
		p.truth(v.Bool(), verb, arg)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		p.whole(uint64(v.Int()), true, verb, arg)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		p.whole(v.Uint(), false, verb, arg)
	case reflect.Float32:
		p.fraction(v.Float(), 32, verb, arg)
	case reflect.Float64:
		p.fraction(v.Float(), 64, verb, arg)
	case reflect.String:
		p.string(v.String(), verb, arg)
	case reflect.Slice, reflect.Array:
		p.list(v, verb)
	default:
		p.opaque(v, verb)
	}
}

// list prints bytes as text where the verb is one for text, and anything else as its elements in brackets.
func (p *printer) list(v reflect.Value, verb rune) {
	if v.Type().Elem().Kind() == reflect.Uint8 && (verb == 's' || verb == 'q' || verb == 'x' || verb == 'X') {
		text := make([]byte, v.Len())
		for i := range text {
			text[i] = byte(v.Index(i).Uint())
		}
		p.text(string(text), verb)
		return
	}
	p.add("[")
	for i := range v.Len() {
		if i > 0 {
			p.add(" ")
		}
		if e := v.Index(i).Interface(); e == nil {
			p.add("<nil>")
		} else {
			p.value(e, verb)
		}
	}
	p.add("]")
}

// opaque prints a nil pointer, or the type of a value that this package cannot look into.
func (p *printer) opaque(v reflect.Value, verb rune) {
	if v.Kind() == reflect.Pointer && v.IsNil() && verb == 'v' {
		p.pad([]byte("<nil>"), true)
		return
	}
	p.fault(verb)
	p.add(v.Type().String() + ")")
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
	p.add(reflect.TypeOf(arg).String() + "=")
	p.value(arg, 'v')
}

func isString(arg any) bool { return arg != nil && reflect.TypeOf(arg).Kind() == reflect.String }
