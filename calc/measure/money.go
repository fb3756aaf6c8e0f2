package measure

import (
	"math"
	"strconv"
	"strings"
)

const wantMoney = "an amount such as 9.90"

// ParseMoneyCents reads an amount of money in hundredths, 0 to 10 billion: "9.90", "9,90", "1,234.50". A currency sign
// or a three-letter code at either end is ignored, because a job has one currency. More than two decimals are refused.
// Errors are *Error.
func ParseMoneyCents(text string) (int, error) {
	var parts scanned
	why := parts.scan(text)
	cents := 0.0
	switch {
	case why != "":
	case parts.negative:
		why = "less than nothing"
	case len(parts.terms) != 1 || !currency(parts.prefix) || !currency(parts.terms[0].unit):
		why = "more than one amount"
	default:
		cents = parts.terms[0].value * 100
		if cents > 1e12 {
			why = "far too large"
		} else if math.Abs(cents-math.Round(cents)) > 1e-4 {
			why = "more than two decimals"
		}
	}
	if why != "" {
		return 0, &Error{Text: text, Want: wantMoney, Why: why}
	}
	return int(math.Round(cents)), nil
}

// currency reports whether word is empty or could name a currency.
func currency(word string) bool {
	if word == "" || oneOf(word, "€|$|£|¥|₹|₺|₩|₽|fr|kr|zł|kč|ft|r$|us$") {
		return true
	}
	if len(word) != 3 {
		return false
	}
	for _, letter := range word {
		if letter < 'a' || letter > 'z' {
			return false
		}
	}
	return true
}

// FormatMoney writes hundredths as "9.90", always with two decimals and without
// a currency sign.
func FormatMoney(cents int) string {
	sign, digits := "", strconv.Itoa(cents)
	if cents < 0 {
		sign, digits = "-", digits[1:]
	}
	if len(digits) < 3 {
		digits = strings.Repeat("0", 3-len(digits)) + digits
	}
	return sign + digits[:len(digits)-2] + "." + digits[len(digits)-2:]
}
