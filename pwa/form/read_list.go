package form

import (
	"encoding/json"
	"sort"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// MaxRows is how many rows of typed counts one form takes.
const MaxRows = 200

func readSizes(f job.Field, v Values) (json.RawMessage, *problem) {
	sizes := []int{}
	for _, typed := range v[f.Name] {
		n, err := strconv.Atoi(strings.TrimSpace(typed))
		if err != nil || !job.KnownSize(n) {
			return nil, at(f.Name, "There is no "+strconv.Quote(clip(typed))+" size; known are "+sizeList()+" inches")
		}
		sizes = append(sizes, n)
	}
	if f.Required && len(sizes) == 0 {
		return nil, at(f.Name, f.Label+": tick at least one of "+sizeList()+" inches")
	}
	sort.Ints(sizes)
	return encode(sizes), nil
}

func sizeList() string {
	names := make([]string, len(job.Sizes))
	for i, s := range job.Sizes {
		names[i] = strconv.Itoa(s)
	}
	return strings.Join(names, ", ")
}

// clip shortens what is quoted back in a message.
func clip(typed string) string {
	runes := []rune(clean(typed, false))
	if len(runes) > 30 {
		return string(runes[:30]) + "..."
	}
	return string(runes)
}

// readShares reads one weight a colour from inputs named field.colour. Colours left empty or at nothing are left out.
func readShares(f job.Field, v Values) (json.RawMessage, *problem) {
	shares := []job.Share{}
	for _, id := range v.Under(f.Name + ".") {
		key := f.Name + "." + id
		typed := clean(v.Get(key), false)
		if typed == "" {
			continue
		}
		weight, err := measure.ParseNumber(typed)
		if err != nil || weight < 0 || weight > 1000 {
			return nil, at(key, "How much of this colour: a number from 0 to 1000, such as 2")
		}
		if weight > 0 {
			shares = append(shares, job.Share{Colour: id, Weight: weight})
		}
	}
	if f.Required && len(shares) == 0 {
		return nil, at(f.Name, f.Label+": give at least one colour a figure above 0")
	}
	return encode(shares), nil
}

// Parts of a row of typed counts. They post as Name.size, Name.to, Name.colour and Name.count, the n-th value of each
// being row n.
const (
	RowSize   = "size"
	RowTo     = "to"
	RowColour = "colour"
	RowCount  = "count"
)

var rowParts = [...]string{RowSize, RowTo, RowColour, RowCount}

// row is one typed row: the parts in the order of rowParts, and its place on the page from 1.
type row struct {
	parts [len(rowParts)]string
	place int
}

// rows lists the rows that have a count.
func rows(v Values, name string) []row {
	var typed []row
	for i, count := range v[name+"."+RowCount] {
		if clean(count, false) == "" {
			continue
		}
		r := row{place: i + 1}
		for part, key := range rowParts {
			if list := v[name+"."+key]; i < len(list) {
				r.parts[part] = clean(list[i], false)
			}
		}
		typed = append(typed, r)
	}
	return typed
}

func sameRows(a, b []row) bool {
	same := len(a) == len(b)
	for i := 0; same && i < len(a); i++ {
		same = a[i].parts == b[i].parts
	}
	return same
}

// readCounts reads rows of size, what it is sized to, colour and count. A row without a count is left out.
func readCounts(f job.Field, v Values) (json.RawMessage, *problem) {
	counts := []job.TypedCount{}
	typed := rows(v, f.Name)
	if len(typed) > MaxRows {
		return nil, at(f.Name, f.Label+" may have up to "+strconv.Itoa(MaxRows)+" rows")
	}
	for _, r := range typed {
		counted, fault := readRow(r)
		if fault != "" {
			return nil, at(f.Name, "Row "+strconv.Itoa(r.place)+": "+fault)
		}
		if counted.Count > 0 {
			counts = append(counts, counted)
		}
	}
	if f.Required && len(counts) == 0 {
		return nil, at(f.Name, f.Label+": count at least one balloon")
	}
	return encode(counts), nil
}

func readRow(r row) (counted job.TypedCount, fault string) {
	size, to, colour, typed := r.parts[0], r.parts[1], r.parts[2], r.parts[3]
	var err error
	if counted.Count, err = measure.ParseCount(typed); err != nil || counted.Count > 10000 {
		return counted, "how many is a whole number from 0 to 10000"
	}
	if counted.SizeIn, err = strconv.Atoi(size); err != nil || !job.KnownSize(counted.SizeIn) {
		return counted, "the size is one of " + sizeList() + " inches"
	}
	if to != "" {
		if counted.ToIn, err = measure.ParseNumber(to); err != nil || counted.ToIn < 0 || counted.ToIn > 60 {
			return counted, "it is sized to 0 to 60 inches, or empty for the usual"
		}
	}
	if counted.Colour = colour; colour == "" {
		return counted, "pick a colour of the palette"
	}
	return counted, ""
}
