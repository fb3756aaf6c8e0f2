package table

import (
	"math"
	"strconv"
	"strings"

	"garlandry/calc/softsphere"
)

// A curve of one size is written as numbers of three base-36 digits, in ten-thousandths: pitches, then coverages.
const (
	digits  = 3
	unit    = 1e4
	base    = 36
	numbers = 2 * softsphere.Points
	// Width is the number of characters of one curve.
	Width = digits * numbers
)

// Encode returns the text of a curve, with figures rounded to ten-thousandths.
func Encode(c *softsphere.Curve) string {
	var text strings.Builder
	write := func(figure float64) {
		number := strconv.FormatInt(int64(math.Round(figure*unit)), base)
		text.WriteString(strings.Repeat("0", max(0, digits-len(number))) + number)
	}
	for _, list := range []softsphere.AtPushes{c.Pitch, c.Coverage} {
		for _, figure := range list {
			write(figure)
		}
	}
	return text.String()
}

// decode reads a text of Encode.
func decode(c *softsphere.Curve, text string) {
	for i := range softsphere.Points {
		c.Pitch[i] = figure(text, i)
		c.Coverage[i] = figure(text, softsphere.Points+i)
	}
}

func figure(text string, place int) float64 {
	number := 0
	for i := range digits {
		at := place*digits + i
		digit := int(text[at] - '0')
		if text[at] >= 'a' {
			digit = int(text[at]-'a') + 10
		}
		number = number*base + digit
	}
	return float64(number) / unit
}
