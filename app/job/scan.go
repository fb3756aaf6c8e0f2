package job

import (
	"errors"
	"fmt"
	"unicode/utf8"
)

// Limits of JSON that others made.
const (
	MaxDepth  = 64 // objects and lists inside one another, in one value
	maxNumber = 64 // bytes of one number
	maxString = 128 << 10
)

// ScanJSON reports whether JSON from others is safe to decode: valid UTF-8 without lone surrogates, nested at most
// depth deep, and without absurdly long numbers or strings. It leaves the grammar to the decoder.
//
// Call it before anything else reads the value. It does not recurse. A phone's core runs on the browser's own stack:
// code that recurses into a deep value crashes the core, and Go cannot recover from that.
func ScanJSON(data []byte, depth int) error {
	if !utf8.Valid(data) {
		return errors.New("the text is not UTF-8")
	}
	deep, number := 0, 0
	for i := 0; i < len(data); i++ {
		c := data[i]
		if number++; !inNumber(c) {
			number = 0
		}
		switch {
		case c == '"':
			length, err := scanString(data[i+1:])
			if err != nil {
				return err
			}
			i += 1 + length
		case c == '{' || c == '[':
			if deep++; deep > depth {
				return fmt.Errorf("JSON may nest up to %d deep", depth)
			}
		case c == '}' || c == ']':
			deep--
		case number > maxNumber:
			return fmt.Errorf("a number may have up to %d digits", maxNumber)
		}
	}
	return nil
}

func inNumber(c byte) bool {
	return c >= '0' && c <= '9' || c == '-' || c == '+' || c == '.' || c == 'e' || c == 'E'
}

// scanString returns the length of a string up to its closing quote, or to the end if it has none.
func scanString(data []byte) (int, error) {
	for i := 0; i < len(data); i++ {
		switch {
		case i > maxString:
			return 0, fmt.Errorf("a text may have up to %d bytes", maxString)
		case data[i] == '"':
			return i, nil
		case data[i] == '\\':
			unit := codeUnit(data[i:])
			switch {
			case unit < 0: // one character follows, or nothing that the decoder accepts
				i++
			case unit >= 0xd800 && unit < 0xdc00 && trails(codeUnit(data[i+6:])):
				i += 11
			case unit >= 0xd800 && unit < 0xe000:
				return 0, errors.New("the text holds half a character")
			default:
				i += 5
			}
		}
	}
	return len(data), nil
}

func trails(unit int) bool { return unit >= 0xdc00 && unit < 0xe000 }

// codeUnit reads an escape of the form \uXXXX at the beginning, -1 if there is none.
func codeUnit(data []byte) int {
	if len(data) < 6 || data[0] != '\\' || data[1] != 'u' {
		return -1
	}
	unit := 0
	for _, c := range data[2:6] {
		switch {
		case c >= '0' && c <= '9':
			unit = unit<<4 + int(c-'0')
		case c|0x20 >= 'a' && c|0x20 <= 'f':
			unit = unit<<4 + int(c|0x20-'a') + 10
		default:
			return -1
		}
	}
	return unit
}

// plainText reports whether a name is valid UTF-8 without control characters.
func plainText(text string) bool {
	for i := 0; i < len(text); i++ {
		if text[i] < ' ' || text[i] == 0x7f {
			return false
		}
	}
	return utf8.ValidString(text)
}
