package json

import "strconv"

// A SyntaxError says that a text is not JSON. Offset is how many bytes were read, the offending one among them.
type SyntaxError struct {
	Offset  int64
	message string
}

func (e *SyntaxError) Error() string { return e.message }

// maxDepth is how deep objects and lists may lie in one another.
const maxDepth = 10000

// Valid reports whether data is one JSON value, with white space around it or not.
func Valid(data []byte) bool { return check(data) == nil }

func check(data []byte) error {
	s := scanner{data: data}
	if !s.skip() || s.next() != 0 || s.at < len(data) {
		return s.fault()
	}
	return nil
}

// A scanner walks over JSON. Where a method of it returns false, at is the offending byte, or the end of the data.
type scanner struct {
	data      []byte
	at, depth int
}

func (s *scanner) fault() error {
	if s.at >= len(s.data) {
		return &SyntaxError{int64(len(s.data)), "unexpected end of JSON input"}
	}
	what := "invalid character " + strconv.QuoteRune(rune(s.data[s.at])) + " in JSON"
	if s.depth > maxDepth {
		what = "JSON nests too deep"
	}
	return &SyntaxError{int64(s.at) + 1, what}
}

// peek gives the byte that is read next, 0 at the end of the data.
func (s *scanner) peek() byte {
	if s.at < len(s.data) {
		return s.data[s.at]
	}
	return 0
}

// next passes white space and gives the byte after it, 0 at the end of the data.
func (s *scanner) next() byte {
	for s.at < len(s.data) {
		c := s.data[s.at]
		if c != ' ' && c != '\n' && c != '\t' && c != '\r' {
			return c
		}
		s.at++
	}
	return 0
}

// skip passes one value.
func (s *scanner) skip() bool {
	switch c := s.next(); c {
	case '{', '[':
		if s.depth++; s.depth > maxDepth {
			return false
		}
		s.at++
		fine := s.members(c)
		if fine {
			s.depth--
		}
		return fine
	case '"':
		return s.text()
	case 't':
		return s.word("true")
	case 'f':
		return s.word("false")
	case 'n':
		return s.word("null")
	}
	return s.number()
}

// members passes what lies behind an opening bracket, and the closing one, which is two further on in ASCII.
func (s *scanner) members(open byte) bool {
	if s.next() == open+2 {
		s.at++
		return true
	}
	for {
		if open == '{' {
			if s.next() != '"' || !s.text() || s.next() != ':' {
				return false
			}
			s.at++
		}
		if !s.skip() {
			return false
		}
		c := s.next()
		if c != ',' && c != open+2 {
			return false
		}
		s.at++
		if c != ',' {
			return true
		}
	}
}

// text passes a text, from its opening quotation mark on.
func (s *scanner) text() bool {
	for s.at++; s.at < len(s.data); s.at++ {
		c := s.data[s.at]
		if c == '"' {
			s.at++
			return true
		}
		if c < ' ' || c == '\\' && !s.escape() {
			return false
		}
	}
	return false
}

// escape passes a backslash and what belongs to it, but for its last byte.
func (s *scanner) escape() bool {
	s.at++
	switch s.peek() {
	case 'u':
		for range 4 {
			s.at++
			if hexDigit(s.peek()) < 0 {
				return false
			}
		}
		return true
	case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
		return true
	}
	return false
}

// hexDigit gives the value of a hexadecimal digit, -1 for any other byte.
func hexDigit(c byte) rune {
	switch {
	case c >= '0' && c <= '9':
		return rune(c - '0')
	case c|0x20 >= 'a' && c|0x20 <= 'f':
		return rune(c|0x20-'a') + 10
	}
	return -1
}

func (s *scanner) word(w string) bool {
	for i := range len(w) {
		if s.peek() != w[i] {
			return false
		}
		s.at++
	}
	return true
}

func (s *scanner) number() bool {
	if s.peek() == '-' {
		s.at++
	}
	if s.peek() == '0' {
		s.at++
	} else if !s.digits() {
		return false
	}
	if s.peek() == '.' {
		s.at++
		if !s.digits() {
			return false
		}
	}
	if s.peek()|0x20 == 'e' {
		s.at++
		if c := s.peek(); c == '+' || c == '-' {
			s.at++
		}
		return s.digits()
	}
	return true
}

// digits passes digits and reports whether there was one.
func (s *scanner) digits() bool {
	from := s.at
	for c := s.peek(); c >= '0' && c <= '9'; c = s.peek() {
		s.at++
	}
	return s.at > from
}
