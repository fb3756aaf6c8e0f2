package measure

import "strings"

// unit is a unit of a quantity. A bare number after it ("10 ft 6") has the unit smaller, if not empty.
type unit struct {
	names   string // its names, separated by |
	toBase  float64
	family  string
	smaller string
}

// quantity says how to read one kind of quantity.
type quantity struct {
	want             string
	units            []unit
	metric, imperial string // the units of a bare number
	max              float64
	signed           bool
	compound         bool
}

// find returns the unit with that name, or nil.
func (q *quantity) find(name string) *unit {
	for i := range q.units {
		if oneOf(name, q.units[i].names) {
			return &q.units[i]
		}
	}
	return nil
}

// oneOf reports whether word is one of the words separated by |.
func oneOf(word, words string) bool {
	for words != "" {
		first, rest, _ := strings.Cut(words, "|")
		if first == word {
			return true
		}
		words = rest
	}
	return false
}

func (q *quantity) refuse(text, why string) (float64, error) {
	return 0, &Error{Text: text, Want: q.want, Why: why}
}

// read returns the value in the base unit of q.
func (q *quantity) read(text string, bare System) (float64, error) {
	var parts scanned
	if why := parts.scan(text); why != "" {
		return q.refuse(text, why)
	}
	total, why := q.value(&parts, bare)
	if why != "" {
		return q.refuse(text, why)
	}
	return total, nil
}

func (q *quantity) value(parts *scanned, bare System) (total float64, why string) {
	if parts.prefix != "" {
		return 0, "starts with " + shorten(parts.prefix)
	}
	if parts.negative && !q.signed {
		return 0, "less than nothing"
	}
	if len(parts.terms) > 1 && !q.compound {
		return 0, "more than one number"
	}
	total, why = q.sum(parts.terms, pick(bare, q.metric, q.imperial))
	if why == "" && total > q.max {
		why = "far too large"
	}
	if parts.negative {
		total = 0 - total
	}
	return total, why
}

// sum adds terms whose units go together, largest first.
func (q *quantity) sum(terms []term, bare string) (total float64, why string) {
	var before *unit
	for i := range terms {
		t := &terms[i]
		name := t.unit
		follows := name == "" && i > 0
		if follows {
			name = before.smaller
		} else if name == "" && len(terms) == 1 {
			name = bare
		}
		if name == "" {
			return 0, "the unit is missing"
		}
		u := q.find(name)
		if u == nil {
			return 0, "unknown unit " + shorten(name)
		}
		if i > 0 {
			whole := terms[i-1].value == float64(int64(terms[i-1].value))
			switch {
			case u.family != before.family:
				return 0, "the two units do not go together"
			case u.toBase >= before.toBase:
				return 0, "the larger unit comes first"
			case !whole:
				return 0, "only the last number can have a fraction"
			case follows && t.value*u.toBase >= before.toBase:
				return 0, "the unit of the last number is missing"
			}
		}
		total += float64(t.value * u.toBase)
		before = u
	}
	return total, ""
}

func pick(s System, metric, imperial string) string {
	if s == Imperial {
		return imperial
	}
	return metric
}
