package fmt

import (
	"strconv"
	"unicode/utf8"
)

// lower holds the digits of a number to base sixteen, then the letter that marks one; upper the same in capitals.
const (
	lower = "0123456789abcdefx"
	upper = "0123456789ABCDEFX"
)

func digits(verb rune) string {
	if verb == 'X' {
		return upper
	}
	return lower
}

func (p *printer) truth(v bool, verb rune, arg any) {
	if verb != 't' && verb != 'v' {
		p.bad(arg, verb)
		return
	}
	p.pad(strconv.AppendBool(nil, v), true)
}

// text prints a string that is no argument itself, so that a verb that does not suit it names no type but string.
func (p *printer) text(s string, verb rune) { p.string(s, verb, s) }

func (p *printer) string(s string, verb rune, arg any) {
	switch verb {
	case 'v', 's':
		p.pad([]byte(p.cut(s)), true)
	case 'q':
		if p.plus {
			p.pad(strconv.AppendQuoteToASCII(nil, p.cut(s)), true)
		} else {
			p.pad(strconv.AppendQuote(nil, p.cut(s)), true)
		}
	case 'x', 'X':
		p.codes(s, digits(verb))
	default:
		p.bad(arg, verb)
	}
}

// cut leaves as many characters of a string as the precision says.
func (p *printer) cut(s string) string {
	left := p.precision
	if left == unset {
		return s
	}
	for i := range s {
		if left == 0 {
			return s[:i]
		}
		left--
	}
	return s
}

// codes prints the bytes of a string to base sixteen, as many as the precision says.
func (p *printer) codes(s, digits string) {
	if p.precision != unset && p.precision < len(s) {
		s = s[:p.precision]
	}
	var out []byte
	for i := range len(s) {
		if i > 0 && p.space {
			out = append(out, ' ')
		}
		if p.sharp && (i == 0 || p.space) {
			out = append(out, '0', digits[16])
		}
		out = append(out, digits[s[i]>>4], digits[s[i]&15])
	}
	p.pad(out, true)
}

// whole prints a whole number, given as its bits.
func (p *printer) whole(bits uint64, signed bool, verb rune, arg any) {
	base := 10
	switch verb {
	case 'v', 'd':
	case 'x', 'X':
		base = 16
	case 'c':
		p.pad(utf8.AppendRune(nil, character(bits)), true)
		return
	case 'U':
		p.codePoint(bits)
		return
	default:
		p.bad(arg, verb)
		return
	}
	sign := ""
	switch {
	case signed && int64(bits) < 0:
		sign, bits = "-", -bits
	case p.plus:
		sign = "+"
	case p.space:
		sign = " "
	}
	least := p.precision
	switch {
	case least == 0 && bits == 0:
		p.fill(p.width, ' ')
		return
	case least == unset && p.zero && !p.minus:
		least = p.width - len(sign)
	}
	if p.sharp && base == 16 {
		sign += "0" + digits(verb)[16:]
	}
	p.pad(append([]byte(sign), numeral(bits, base, least, digits(verb))...), false)
}

// numeral writes a number with at least so many digits.
func numeral(n uint64, base, least int, digits string) []byte {
	text := strconv.AppendUint(nil, n, base)
	var out []byte
	for i := len(text); i < least; i++ {
		out = append(out, '0')
	}
	for _, c := range text {
		if c >= 'a' {
			c = digits[c-'a'+10]
		}
		out = append(out, c)
	}
	return out
}

func character(bits uint64) rune {
	if bits > utf8.MaxRune {
		return utf8.RuneError
	}
	return rune(bits)
}

// codePoint prints a number as U+0041, with the character itself behind it where the flag # asks for that.
func (p *printer) codePoint(bits uint64) {
	out := append([]byte("U+"), numeral(bits, 16, max(4, p.precision), upper)...)
	if p.sharp && bits <= utf8.MaxRune && strconv.IsPrint(rune(bits)) {
		out = append(out, " '"...)
		out = append(utf8.AppendRune(out, rune(bits)), '\'')
	}
	p.pad(out, false)
}

// fraction prints a floating-point number of so many bits.
func (p *printer) fraction(v float64, size int, verb rune, arg any) {
	style, precision := byte(verb), unset
	switch verb {
	case 'v':
		style = 'g'
	case 'g', 'G', 'x', 'X':
	case 'e', 'E', 'f':
		precision = 6
	default:
		p.bad(arg, verb)
		return
	}
	if p.precision != unset {
		precision = p.precision
	}
	text := strconv.AppendFloat([]byte{'+'}, v, style, precision, size)
	if text[1] == '-' || text[1] == '+' {
		text = text[1:]
	}
	if p.space && !p.plus && text[0] == '+' {
		text[0] = ' '
	}
	finite := text[1] <= '9'
	showSign := p.plus || text[0] != '+'
	if !finite {
		showSign = text[1] == 'I' || p.plus || p.space
	}
	switch {
	case !showSign:
		p.pad(text[1:], finite)
	case finite && p.zero && !p.minus && p.width > len(text):
		p.out = append(p.out, text[0])
		p.fill(p.width-len(text), '0')
		p.out = append(p.out, text[1:]...)
	default:
		p.pad(text, finite)
	}
}
