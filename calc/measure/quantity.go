package measure

// unit is one way to write a quantity. A following bare number ("10 ft 6")
// means smaller, when smaller is not empty.
type unit struct {
	toBase  float64
	family  string
	smaller string
}

// quantity is how one kind of thing is read.
type quantity struct {
	want     string
	find     func(name string) (unit, bool)
	bare     string // the unit a bare number has; "" when a unit is needed
	max      float64
	signed   bool
	compound bool
}

// read gives the value in the base unit of q.
func (q quantity) read(text string) (float64, error) {
	refuse := func(why string) (float64, error) {
		return 0, &Error{Text: text, Want: q.want, Why: why}
	}
	parts, why := scan(text)
	if why != "" {
		return refuse(why)
	}
	if parts.prefix != "" {
		return refuse("starts with " + shorten(parts.prefix))
	}
	if parts.negative && !q.signed {
		return refuse("less than nothing")
	}
	if len(parts.terms) > 1 && !q.compound {
		return refuse("more than one number")
	}
	total, why := q.sum(parts.terms)
	if why != "" {
		return refuse(why)
	}
	if total > q.max {
		return refuse("far too large")
	}
	if parts.negative {
		total = 0 - total
	}
	return total, nil
}

// sum adds terms that go together, largest first.
func (q quantity) sum(terms []term) (total float64, why string) {
	var before unit
	for i, t := range terms {
		name := t.unit
		follows := name == "" && i > 0
		if follows {
			name = before.smaller
		} else if name == "" && len(terms) == 1 {
			name = q.bare
		}
		if name == "" {
			return 0, "the unit is missing"
		}
		u, known := q.find(name)
		if !known {
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
