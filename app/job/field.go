package job

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// FieldKind says how a field's value is written in JSON and typed by a person.
type FieldKind string

// The kinds of field. Lengths are millimetres, temperatures degrees Celsius, times local "2006-01-02T15:04".
const (
	Text        FieldKind = "text"
	LongText    FieldKind = "long_text"
	OneOf       FieldKind = "choice"
	Flag        FieldKind = "flag"
	Length      FieldKind = "length"       // mm; metres or feet when typed
	SmallLength FieldKind = "small_length" // mm; centimetres or inches when typed
	Temperature FieldKind = "temperature"  // degrees Celsius
	Mass        FieldKind = "mass"         // grams; kilograms or pounds when typed
	Speed       FieldKind = "speed"        // metres a second; also miles an hour, Beaufort when typed
	Volume      FieldKind = "volume"       // litres; also cubic feet when typed
	Whole       FieldKind = "whole"
	Number      FieldKind = "number"
	Day         FieldKind = "day"     // "2006-01-02"
	PointInTime FieldKind = "moment"  // "2006-01-02T15:04", local time at the venue
	Recipe      FieldKind = "recipe"  // "2x11@10 + 1x18@16"
	HexColour   FieldKind = "colour"  // "#e5604d"
	SizeList    FieldKind = "sizes"   // nominal inches, at least one
	Shares      FieldKind = "shares"  // colour weights, see [Share]
	TypedCounts FieldKind = "counts"  // balloons by size and colour, see [TypedCount]
	Lengths     FieldKind = "lengths" // mm, a list
	Reference   FieldKind = "ref"     // id of another entity
	Spans       FieldKind = "spans"   // times from and to, see [Span]
)

// Choice is one value a field may take, with the words for it.
type Choice struct{ Value, Label string }

// Field is one register of a noun: its name in operations and job files, the words on a form, and what is allowed.
type Field struct {
	Name, Label, Help string
	Kind              FieldKind
	Min, Max          float64 // for numbers and lengths, in the unit of the kind; text length in characters for texts
	Choices           []Choice
	Required          bool
	Refers            string // noun that a Reference names
	Only              string // the characters that a text may hold; empty for all
	Default           string // JSON, used where nothing is set
}

// FieldError says what is wrong with one field, in words for the person who typed it.
type FieldError struct {
	Path    string // "pieces[2].recipe", or the field's name
	Message string
}

func (e *FieldError) Error() string { return e.Path + ": " + e.Message }

func fault(path, format string, args ...any) error {
	return &FieldError{path, fmt.Sprintf(format, args...)}
}

// wrong says what is wrong with the field, after its label.
func (f *Field) wrong(format string, args ...any) error {
	return &FieldError{f.Name, strings.ToLower(f.Label) + " " + fmt.Sprintf(format, args...)}
}

// checks lists the check of each kind.
var checks = [...]struct {
	kind  FieldKind
	check func(*Field, json.RawMessage) error
}{
	{Text, (*Field).checkText}, {LongText, (*Field).checkText}, {OneOf, (*Field).checkChoice}, {Flag, (*Field).checkFlag},
	{Length, (*Field).checkNumber}, {SmallLength, (*Field).checkNumber}, {Temperature, (*Field).checkNumber},
	{Speed, (*Field).checkNumber}, {Volume, (*Field).checkNumber},
	{Mass, (*Field).checkNumber}, {Number, (*Field).checkNumber}, {Whole, (*Field).checkNumber},
	{Day, (*Field).checkTime}, {PointInTime, (*Field).checkTime}, {Recipe, (*Field).checkRecipe},
	{HexColour, (*Field).checkColour}, {SizeList, (*Field).checkSizes}, {Shares, (*Field).checkShares},
	{TypedCounts, (*Field).checkCounts}, {Lengths, (*Field).checkLengths}, {Reference, (*Field).checkReference},
	{Spans, (*Field).checkSpans},
}

// Check reports whether the JSON value is allowed in the field. The error is a [*FieldError] that names the allowed
// range. A null clears the field; only required fields refuse it.
func (f *Field) Check(raw json.RawMessage) error {
	if len(raw) == 0 || string(raw) == "null" {
		if f.Required {
			return f.wrong("is needed")
		}
		return nil
	}
	for i := range checks {
		if checks[i].kind == f.Kind {
			return checks[i].check(f, raw)
		}
	}
	return fault(f.Name, "kind %q is not known", f.Kind)
}

func (f *Field) read(raw json.RawMessage, into any, want string) error {
	if err := json.Unmarshal(raw, into); err != nil {
		return f.wrong("must be %s", want)
	}
	return nil
}

func (f *Field) checkFlag(raw json.RawMessage) error {
	var b bool
	return f.read(raw, &b, "true or false")
}

func (f *Field) checkText(raw json.RawMessage) error {
	var text string
	if err := f.read(raw, &text, "text"); err != nil {
		return err
	}
	if f.Required && strings.TrimSpace(text) == "" {
		return f.wrong("is needed")
	}
	if n := utf8.RuneCountInString(text); f.Max > 0 && n > int(f.Max) {
		return f.wrong("may have up to %d characters; this has %d", int(f.Max), n)
	}
	if f.Only != "" && strings.Trim(text, f.Only) != "" {
		return f.wrong("may hold digits from 0 to 9 only, such as 40")
	}
	return nil
}

func (f *Field) checkChoice(raw json.RawMessage) error {
	var text string
	if err := f.read(raw, &text, "one of "+f.choiceList()); err != nil {
		return err
	}
	for _, c := range f.Choices {
		if c.Value == text {
			return nil
		}
	}
	return f.wrong("must be one of %s", f.choiceList())
}

func (f *Field) choiceList() string {
	values := make([]string, len(f.Choices))
	for i, c := range f.Choices {
		values[i] = c.Value
	}
	return strings.Join(values, ", ")
}

func (f *Field) checkNumber(raw json.RawMessage) error {
	var n float64
	if err := f.read(raw, &n, "a number from "+f.Range()); err != nil {
		return err
	}
	if math.IsNaN(n) || n < f.Min || n > f.Max {
		return f.wrong("must be from %s", f.Range())
	}
	if f.Kind == Whole && n != math.Trunc(n) {
		return f.wrong("must be a whole number from %s", f.Range())
	}
	return nil
}

// Range returns the allowed range as text, in the stored unit and those that people type: "100 to 500000 mm (0.1 m to
// 500 m, 4 in to 1640 ft 5 in)". Forms use only the job's units, see package form.
func (f *Field) Range() string {
	in := strconv.FormatFloat(f.Min, 'f', -1, 64) + " to " + strconv.FormatFloat(f.Max, 'f', -1, 64)
	both := func(write func(float64, measure.System) string) string {
		return " (" + write(f.Min, measure.Metric) + " to " + write(f.Max, measure.Metric) + ", " +
			write(f.Min, measure.Imperial) + " to " + write(f.Max, measure.Imperial) + ")"
	}
	switch f.Kind {
	case Length, Lengths:
		return in + " mm" + both(measure.FormatLength)
	case SmallLength:
		return in + " mm" + both(measure.FormatSmallLength)
	case Temperature:
		return in + " degrees C" + both(measure.FormatTemperature)
	case Mass:
		return in + " g" + both(measure.FormatMass)
	case Speed:
		return in + " m/s" + both(measure.FormatSpeed)
	case Volume:
		return in + " litres" + both(measure.FormatVolume)
	}
	return in
}

func (f *Field) checkTime(raw json.RawMessage) error {
	want := `a local date and time such as "2027-05-08T16:00"`
	parse := func(s string) bool { _, ok := ParseMoment(s); return ok }
	if f.Kind == Day {
		want = `a date such as "2027-05-08"`
		parse = func(s string) bool { _, ok := ParseMoment(s + "T00:00"); return ok }
	}
	var text string
	if err := f.read(raw, &text, want); err != nil {
		return err
	}
	if text == "" && !f.Required {
		return nil
	}
	if !parse(text) {
		return f.wrong("must be %s", want)
	}
	return nil
}

func (f *Field) checkRecipe(raw json.RawMessage) error {
	var text string
	if err := f.read(raw, &text, `a recipe such as "2x11@10 + 1x18@16"`); err != nil {
		return err
	}
	if text == "" && !f.Required {
		return nil
	}
	r, err := cluster.ParseRecipe(text)
	if err == nil {
		err = r.Check()
	}
	if err != nil {
		return fault(f.Name, "%v", err)
	}
	return nil
}

func (f *Field) checkColour(raw json.RawMessage) error {
	var text string
	if err := f.read(raw, &text, `a colour such as "#e5604d"`); err != nil {
		return err
	}
	if !isHexColour(text) {
		return f.wrong("must be # and six digits 0-9 or a-f, such as #e5604d")
	}
	return nil
}

func isHexColour(text string) bool {
	if len(text) != 7 || text[0] != '#' {
		return false
	}
	_, err := strconv.ParseUint(text[1:], 16, 32)
	return err == nil
}

func (f *Field) checkSizes(raw json.RawMessage) error {
	var sizes []int
	if err := f.read(raw, &sizes, "a list of sizes such as [5, 11, 18]"); err != nil {
		return err
	}
	if f.Required && len(sizes) == 0 {
		return fault(f.Name, "%s: name at least one size", strings.ToLower(f.Label))
	}
	for _, size := range sizes {
		if !KnownSize(size) {
			return fault(f.Name, "there is no %d-inch size; known are %s", size, sizeList())
		}
	}
	return nil
}

func (f *Field) checkLengths(raw json.RawMessage) error {
	var lengths []float64
	if err := f.read(raw, &lengths, "a list of lengths in mm"); err != nil {
		return err
	}
	if len(lengths) > 50 {
		return f.wrong("may have up to 50 entries")
	}
	for _, mm := range lengths {
		if mm < f.Min || mm > f.Max {
			return fault(f.Name, "each of %s must be from %s", strings.ToLower(f.Label), f.Range())
		}
	}
	return nil
}

func (f *Field) checkShares(raw json.RawMessage) error {
	var shares []Share
	if err := f.read(raw, &shares, `a list such as [{"colour":"coral","weight":2}]`); err != nil {
		return err
	}
	if len(shares) > 40 {
		return f.wrong("may have up to 40 colours")
	}
	for _, s := range shares {
		if !(s.Weight >= 0 && s.Weight <= 1000) {
			return fault(f.Name, "each weight must be from 0 to 1000")
		}
		if !ValidID(s.Colour) {
			return fault(f.Name, "each share must name a colour of the palette")
		}
	}
	return nil
}

func (f *Field) checkCounts(raw json.RawMessage) error {
	var counts []TypedCount
	if err := f.read(raw, &counts, `a list such as [{"size_in":11,"to_in":10,"colour":"coral","count":24}]`); err != nil {
		return err
	}
	if len(counts) > 200 {
		return f.wrong("may have up to 200 rows")
	}
	for _, c := range counts {
		switch {
		case !KnownSize(c.SizeIn):
			return fault(f.Name, "there is no %d-inch size; known are %s", c.SizeIn, sizeList())
		case c.Count < 0 || c.Count > 10000:
			return fault(f.Name, "each count must be from 0 to 10000")
		case c.ToIn < 0 || c.ToIn > 60:
			return fault(f.Name, "each balloon must be sized to 0 to 60 inches")
		case !ValidID(c.Colour):
			return fault(f.Name, "each count must name a colour of the palette")
		}
	}
	return nil
}

func (f *Field) checkSpans(raw json.RawMessage) error {
	var spans []Span
	if err := f.read(raw, &spans, `a list such as [{"from":"2027-05-08T20:00","to":"2027-05-08T22:00"}]`); err != nil {
		return err
	}
	if len(spans) > MaxSpans {
		return f.wrong("may have up to %d times", MaxSpans)
	}
	for _, s := range spans {
		if minutes, known := s.From.MinutesUntil(s.To); !known || minutes <= 0 {
			return f.wrong("must each have a beginning, and an end after it")
		}
	}
	return nil
}

func (f *Field) checkReference(raw json.RawMessage) error {
	var id string
	if err := f.read(raw, &id, "the id of a "+f.Refers); err != nil {
		return err
	}
	if id != "" && !ValidID(id) {
		return f.wrong("must be the id of a %s", f.Refers)
	}
	return nil
}

// ValidID reports whether text can be the id of an entity: 1 to 40 letters, digits, dashes or underscores.
func ValidID(text string) bool {
	if len(text) == 0 || len(text) > 40 {
		return false
	}
	for _, r := range text {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_') {
			return false
		}
	}
	return true
}

// sortedKeys lists a map's keys, sorted.
func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
