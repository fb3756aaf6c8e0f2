package form

import (
	"cmp"
	"encoding/json"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/calc/stable"
)

// MaxRows is how many rows of typed counts one form takes.
const MaxRows = 200

func readSizes(f *job.Field, v Values) (json.RawMessage, *problem) {
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
	stable.Sort(sizes, cmp.Compare[int])
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
func readShares(f *job.Field, v Values) (json.RawMessage, *problem) {
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

// Parts of a row of typed counts; inputs are named field.ROW.part.
const (
	RowSize   = "size"
	RowTo     = "to"
	RowColour = "colour"
	RowCount  = "count"
)

// Row names the input of one part of a row of typed counts.
func Row(field string, row int, part string) string {
	return field + "." + strconv.Itoa(row) + "." + part
}

// readCounts reads rows of size, what it is sized to, colour and count. A row without a count is left out.
func readCounts(f *job.Field, v Values) (json.RawMessage, *problem) {
	counts := []job.TypedCount{}
	for row := range MaxRows {
		typed := clean(v.Get(Row(f.Name, row, RowCount)), false)
		if typed == "" {
			continue
		}
		counted, fault := readRow(f, v, row, typed)
		if fault != nil {
			return nil, fault
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

func readRow(f *job.Field, v Values, row int, typed string) (job.TypedCount, *problem) {
	none := job.TypedCount{}
	count, err := measure.ParseCount(typed)
	if err != nil || count > 10000 {
		return none, at(Row(f.Name, row, RowCount), "A whole number from 0 to 10000")
	}
	size, err := strconv.Atoi(clean(v.Get(Row(f.Name, row, RowSize)), false))
	if err != nil || !job.KnownSize(size) {
		return none, at(Row(f.Name, row, RowSize), "Pick one of the sizes "+sizeList())
	}
	to := 0.0
	if text := clean(v.Get(Row(f.Name, row, RowTo)), false); text != "" {
		if to, err = measure.ParseNumber(text); err != nil || to < 0 || to > 60 {
			return none, at(Row(f.Name, row, RowTo), "What it is sized to: 0 to 60 inches, or empty for the usual")
		}
	}
	colour := v.Get(Row(f.Name, row, RowColour))
	if colour == "" {
		return none, at(Row(f.Name, row, RowColour), "Pick a colour of the palette")
	}
	return job.TypedCount{SizeIn: size, ToIn: to, Colour: colour, Count: count}, nil
}
