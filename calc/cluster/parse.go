package cluster

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// ErrRecipe is wrapped by every error about a recipe that cannot be read or built.
var ErrRecipe = errors.New("not a recipe that can be built")

// ParseRecipe reads "2x11@10 + 1x18@16". A part without "@" has the usual décor diameter of its size; a part without a
// count is one duplet. It accepts inch marks, spaces, fractions, centimetres after "@", a decimal comma, "*" for "x"
// and commas or semicolons between parts. The result is in its normal form and passes Check. Errors wrap ErrRecipe and
// name the part and an example.
func ParseRecipe(text string) (Recipe, error) {
	if strings.TrimSpace(text) == "" {
		return nil, fmt.Errorf("empty recipe; write duplets x size @ sized to, as in 2x11@10 + 1x18@16: %w", ErrRecipe)
	}
	var recipe Recipe
	for _, piece := range partsOf(text) {
		part, err := ParsePart(piece)
		if err != nil {
			return nil, err
		}
		recipe = append(recipe, part)
	}
	recipe = recipe.Normal()
	if err := recipe.Check(); err != nil {
		return nil, err
	}
	return recipe, nil
}

// UsesUsualSizes reports whether a part of the recipe has no "@", so that ParseRecipe takes the usual diameter.
func UsesUsualSizes(text string) bool {
	if strings.TrimSpace(text) == "" {
		return false
	}
	for _, part := range partsOf(text) {
		if !strings.Contains(part, "@") {
			return true
		}
	}
	return false
}

// partsOf splits a recipe at plus signs and at commas, except decimal commas. A decimal comma is between digits, and
// the digits after it do not count duplets.
func partsOf(text string) []string {
	var parts []string
	start := 0
	for i := range len(text) {
		if text[i] == '+' || text[i] == ';' || text[i] == ',' && !decimalComma(text, i) {
			parts = append(parts, text[start:i])
			start = i + 1
		}
	}
	return append(parts, text[start:])
}

func decimalComma(text string, at int) bool {
	before := strings.TrimRight(text[:at], "0123456789")
	after := strings.TrimLeft(text[at+1:], "0123456789")
	if len(before) == at || len(after) == len(text)-at-1 {
		return false
	}
	after = strings.TrimLeft(after, " ")
	return !strings.HasPrefix(after, "x") && !strings.HasPrefix(after, "X") && !strings.HasPrefix(after, "*") &&
		!strings.HasPrefix(after, "×")
}

// ParsePart reads one part, "2x11@10", "11@10" or "11", by the rules of
// ParseRecipe, without checking that it can be built.
func ParsePart(text string) (Part, error) {
	text = strings.TrimSpace(text)
	read := partCleaner.Replace(strings.ToLower(text))
	part := Part{Duplets: 1}
	if before, after, found := strings.Cut(read, "x"); found {
		duplets, err := strconv.Atoi(before)
		if err != nil || duplets < 1 || duplets > 1000 {
			return badPart(text, "the number of duplets before x is a whole number from 1")
		}
		part.Duplets, read = duplets, after
	}
	sizeText, _, sized := strings.Cut(read, "@")
	size, err := strconv.Atoi(sizeText)
	if err != nil || size < 1 || size > 1000 {
		return badPart(text, "the size is a whole number of inches")
	}
	part.SizeIn = size
	if !sized {
		known, ok := findSize(size)
		if !ok {
			return badPart(text, "no balloon of that size; sizes are "+sizeList())
		}
		part.ToIn = latex.UsualIn(known.NominalIn)
		return part, nil
	}
	_, toText, _ := strings.Cut(text, "@")
	to, ok := parseTo(toText)
	if !ok {
		return badPart(text, "after @ comes the diameter it is sized to, in inches, or with its unit")
	}
	part.ToIn = to
	return part, nil
}

// parseTo reads the inflated diameter in inches. It keeps a bare number unchanged, so that formatted recipes parse to
// the same value, and rounds fractions and units to a hundredth.
func parseTo(text string) (inches float64, ok bool) {
	to, err := strconv.ParseFloat(partCleaner.Replace(strings.ToLower(text)), 64)
	if err != nil || strings.Contains(strings.TrimSpace(text), " ") {
		mm, err := measure.ParseSmallLengthMM(text, measure.Imperial)
		return math.Round(mm/MMPerInch*100) / 100, err == nil && mm > 0
	}
	return to, to > 0 && !math.IsInf(to, 0)
}

func badPart(text, what string) (Part, error) {
	return Part{}, fmt.Errorf("recipe part %q: %s; an example is 2x11@10: %w", text, what, ErrRecipe)
}

// partCleaner removes what people write around the numbers.
var partCleaner = strings.NewReplacer(" ", "", "\u00a0", "", "\t", "", "×", "x", "*", "x", "-inches", "",
	"-inch", "", "inches", "", "inch", "", "in", "", "\"", "", "″", "", ",", ".")
