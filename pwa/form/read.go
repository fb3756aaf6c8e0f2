package form

import (
	"encoding/json"
	"errors"
	"strings"
	"unicode"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// MaxTyped is the longest text, in bytes, that is read from one input.
const MaxTyped = 32 << 10

// Entity reads the named fields of an entity from a submitted form. Each field that was typed anew becomes one change
// that [job.CheckChange] accepts; a field is unchanged when it equals its hidden input [Was], and when the form did
// not have it at all. An unticked box counts as typed. A width and a height may be typed into either field: "3 x 2 m".
// When anything is wrong the changes are nil and the state says what, at its input; the state always holds everything
// that was typed.
func Entity(n *job.Noun, entity string, fields []string, v Values, units measure.System) ([]job.Change, State) {
	v, unpaired := apart(n, fields, built(n, fields, v), units)
	state := State{Values: v.Clone(), Errors: map[string]string{}}
	if unpaired != nil {
		state.Fail(unpaired.key, unpaired.message)
	}
	var changes []job.Change
	for _, name := range fields {
		f, known := n.Field(name)
		if !known {
			continue
		}
		if unchanged(f, v) {
			continue
		}
		value, fault := read(f, v, units)
		if fault == nil {
			change := job.Change{Kind: job.Set, Entity: entity, Field: name, Value: value}
			if fault = check(f, change); fault == nil {
				changes = append(changes, change)
				continue
			}
		}
		state.Fail(fault.key, fault.message)
	}
	if !state.OK() {
		return nil, state
	}
	return changes, state
}

// Needed returns the noun with the named fields required, for forms that do not take an empty one.
func Needed(n *job.Noun, names ...string) *job.Noun {
	fields := append([]job.Field(nil), n.Fields...)
	for i := range fields {
		for _, name := range names {
			if fields[i].Name == name {
				fields[i].Required = true
			}
		}
	}
	needed := *n
	needed.Fields = fields
	return &needed
}

// problem is an error at an input.
type problem struct{ key, message string }

func at(key, message string) *problem { return &problem{key, sentence(message)} }

// sentence makes an error text one that can stand alone beside a field.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return text
	}
	runes := []rune(text)
	runes[0] = unicode.ToUpper(runes[0])
	return string(runes)
}

func check(f *job.Field, change job.Change) *problem {
	err := f.Check(change.Value)
	if err == nil {
		err = job.CheckChange(change)
	}
	if err == nil {
		return nil
	}
	if field, is := errors.AsType[*job.FieldError](err); is {
		return at(f.Name, field.Message)
	}
	return at(f.Name, err.Error())
}

// unchanged reports whether the form shows that the field was left as it stood. A field that the form did not have is
// unchanged, unless it is needed or is one that says nothing when it is empty.
func unchanged(f *job.Field, v Values) bool {
	switch f.Kind {
	case job.Flag, job.SizeList:
		return v.Has(Was(f.Name)) && v.Get(Was(f.Name)) == strings.Join(v[f.Name], " ")
	case job.Spans:
		return !v.Has(f.Name) || v.Has(Was(f.Name)) && v.Get(Was(f.Name)) == strings.TrimSpace(strings.Join(v[f.Name], " "))
	case job.Shares, job.TypedCounts:
		return unchangedParts(f, v)
	}
	if !v.Has(f.Name) {
		return !f.Required
	}
	return v.Has(Was(f.Name)) && v.Get(Was(f.Name)) == v.Get(f.Name) &&
		!(f.Required && strings.TrimSpace(v.Get(f.Name)) == "")
}

// unchangedParts looks at the inputs of a field that has several. Rows of counts without a count say nothing, and
// neither do inputs that were added empty and left so.
func unchangedParts(f *job.Field, v Values) bool {
	parts := v.Under(f.Name + ".")
	if len(parts) == 0 {
		return !f.Required
	}
	for _, part := range parts {
		key := f.Name + "." + part
		if f.Kind == job.TypedCounts {
			row, _, _ := strings.Cut(part, ".")
			count := f.Name + "." + row + "." + RowCount
			if clean(v.Get(count), false) == "" && v.Get(Was(count)) == "" {
				continue
			}
		}
		if v.Get(Was(key)) != v.Get(key) {
			return false
		}
	}
	return !f.Required || v.Has(Was(f.Name+"."+parts[0]))
}

// read returns the JSON value of a field, null when it was left empty.
func read(f *job.Field, v Values, units measure.System) (json.RawMessage, *problem) {
	switch f.Kind {
	case job.SizeList:
		return readSizes(f, v)
	case job.Shares:
		return readShares(f, v)
	case job.TypedCounts:
		return readCounts(f, v)
	case job.Spans:
		return readSpans(f, v[f.Name])
	case job.Flag:
		return encode(v.Get(f.Name) != "" && v.Get(f.Name) != "0"), nil
	}
	typed := v.Get(f.Name)
	if len(typed) > MaxTyped {
		return nil, at(f.Name, f.Label+" is far too long")
	}
	typed = clean(typed, f.Kind == job.LongText)
	if typed == "" {
		return readEmpty(f, units)
	}
	switch f.Kind {
	case job.Length, job.SmallLength, job.Temperature, job.Mass, job.Speed, job.Volume, job.Whole, job.Number:
		return readNumber(f, typed, units)
	case job.Lengths:
		return readLengths(f, typed, units)
	case job.Day, job.PointInTime:
		return readTime(f, typed)
	case job.Recipe:
		return readRecipe(f, typed)
	case job.HexColour:
		typed = strings.ToLower(typed)
	}
	return encode(typed), nil
}

func readEmpty(f *job.Field, units measure.System) (json.RawMessage, *problem) {
	if !f.Required {
		return json.RawMessage("null"), nil
	}
	if f.Kind == job.Recipe {
		return readRecipe(f, "")
	}
	message := f.Label + " is needed"
	if allowed := Range(f, units); allowed != "" {
		message += ": " + allowed
	}
	return nil, at(f.Name, message)
}

// clean drops what no field can hold: bytes that are not UTF-8, control characters, and blanks around the text.
func clean(typed string, lines bool) string {
	typed = strings.ReplaceAll(strings.ToValidUTF8(typed, "�"), "\r\n", "\n")
	typed = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' && lines:
			return r
		case r == '\n' || r == '\r' || r == '\t':
			return ' '
		case unicode.IsControl(r):
			return -1
		}
		return r
	}, typed)
	return strings.TrimSpace(typed)
}

func encode(value any) json.RawMessage {
	raw, err := json.Marshal(value)
	if err != nil {
		return json.RawMessage("null")
	}
	return raw
}
