// Package phrase writes numbers, sizes and names for the sentences of a plan.
package phrase

import (
	"encoding/json"
	"strconv"
	"strings"
	"unicode"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// Count writes a number with its noun: "1 cluster", "48 clusters". The plural adds an s unless it is given.
func Count(n int, noun string, plural ...string) string {
	if n == 1 {
		return "1 " + noun
	}
	if len(plural) > 0 {
		return strconv.Itoa(n) + " " + plural[0]
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// And writes a list: "a", "a and b", "a, b and c".
func And(list []string) string {
	last := len(list) - 1
	if last < 1 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// Inch writes a balloon size: "11-inch".
func Inch(sizeIn int) string { return strconv.Itoa(sizeIn) + "-inch" }

// Number writes a figure with up to two decimals.
func Number(x float64) string { return measure.FormatNumber(x, 2) }

// HasWord reports whether a name holds one of the words as a whole word, in any case.
func HasWord(name string, words ...string) bool {
	for _, have := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) }) {
		for _, w := range words {
			if have == w {
				return true
			}
		}
	}
	return false
}

// Sentence ends a text with a full stop unless it already ends a sentence.
func Sentence(text string) string {
	if strings.ContainsAny(text[max(0, len(text)-1):], ".!?") {
		return text
	}
	return text + "."
}

// Field reads a text field of an entity, even of a removed one. It returns the fallback for an empty field.
func Field(j job.Job, entity, field, fallback string) string {
	var text string
	if json.Unmarshal(j.State.Register(entity, field).Value(), &text) != nil || strings.TrimSpace(text) == "" {
		return fallback
	}
	return text
}

// AppendName adds a name to a comma-separated list.
func AppendName(names, name string) string {
	if names != "" {
		names += ", "
	}
	return names + name
}

// Unit returns a unit without its plural s if n is 1. Units here end in a plain s or have no plural.
func Unit(n int, many string) string {
	if n == 1 {
		return strings.TrimSuffix(many, "s")
	}
	return many
}
