package fmt

import "unicode/utf8"

// unset marks a width or a precision that the format does not give; largest is the largest that it may give.
const (
	unset   = -1
	largest = 1_000_000
)

// directive is what stands between a percent sign and its verb.
type directive struct {
	minus, plus, sharp, space, zero bool
	width, precision                int
}

// printer fills in one format.
type printer struct {
	out []byte
	directive

	wraps     bool    // %w is allowed
	wrapVerbs int     // the %w met so far
	wrapped   []error // the errors among them

	plain    bool // values print without their own words
	panicked bool // the value being printed is that of a panic
}

func (p *printer) add(text string) { p.out = append(p.out, text...) }

func (p *printer) format(format string, args []any) {
	used := 0
	for i := 0; i < len(format); {
		if format[i] != '%' {
			p.out = append(p.out, format[i])
			i++
			continue
		}
		i = p.readDirective(format, i+1)
		if i >= len(format) {
			p.add("%!(NOVERB)")
			break
		}
		verb, size := utf8.DecodeRuneInString(format[i:])
		i += size
		switch {
		case verb == '%':
			p.add("%")
			continue
		case used >= len(args):
			p.fault(verb)
			p.add("MISSING)")
			continue
		case verb == 'w':
			p.wrapVerbs++
			if err, ok := args[used].(error); ok {
				p.wrapped = append(p.wrapped, err)
			}
			fallthrough
		case verb == 'v':
			p.plus, p.sharp = false, false
		}
		p.value(args[used], verb)
		used++
	}
	if used < len(args) {
		p.extra(args[used:])
	}
}

func (p *printer) extra(args []any) {
	p.add("%!(EXTRA ")
	p.directive = directive{width: unset, precision: unset}
	for i, arg := range args {
		if i > 0 {
			p.add(", ")
		}
		p.typed(arg)
	}
	p.add(")")
}

// readDirective reads flags, width and precision from i on and returns where the verb stands.
func (p *printer) readDirective(format string, i int) int {
	p.directive = directive{width: unset, precision: unset}
	for ; i < len(format); i++ {
		switch format[i] {
		case '-':
			p.minus = true
		case '+':
			p.plus = true
		case '#':
			p.sharp = true
		case ' ':
			p.space = true
		case '0':
			p.zero = true
		default:
			p.width, i = number(format, i)
			if i+1 < len(format) && format[i] == '.' {
				p.precision, i = number(format, i+1)
				p.precision = max(p.precision, 0)
			}
			return i
		}
	}
	return i
}

// number reads a whole number and returns where it ends. None is unset; one too large ends the format.
func number(format string, i int) (int, int) {
	n, start := 0, i
	for ; i < len(format) && '0' <= format[i] && format[i] <= '9'; i++ {
		if n > largest {
			return unset, len(format)
		}
		n = n*10 + int(format[i]-'0')
	}
	if i == start {
		return unset, i
	}
	return n, i
}

// pad adds text, filled up to the width with spaces, or with zeros when those may stand to its left.
func (p *printer) pad(text []byte, zeros bool) {
	missing := 0
	if p.width > 0 {
		missing = p.width - utf8.RuneCount(text)
	}
	if p.minus {
		p.out = append(p.out, text...)
		p.fill(missing, ' ')
		return
	}
	if zeros && p.zero {
		p.fill(missing, '0')
	} else {
		p.fill(missing, ' ')
	}
	p.out = append(p.out, text...)
}

func (p *printer) fill(count int, with byte) {
	for ; count > 0; count-- {
		p.out = append(p.out, with)
	}
}
