package measure

import (
	"strconv"
	"strings"
)

const maxTextBytes = 200

// term is one number and the unit text after it, in lower case.
type term struct {
	value float64
	unit  string
}

// scanned is a parsed text: an optional word before the first number, a sign, then numbers with units.
type scanned struct {
	prefix   string
	negative bool
	terms    []term
}

// scan parses text. It returns why the text cannot be read, or "".
func (result *scanned) scan(text string) (why string) {
	if len(text) > maxTextBytes {
		return "too long"
	}
	rest := plain(text)
	prefix := unitRun(rest)
	rest = rest[len(prefix):]
	prefix = strings.TrimSpace(prefix)
	if strings.HasSuffix(prefix, "-") || strings.HasSuffix(prefix, "+") {
		result.negative = strings.HasSuffix(prefix, "-")
		prefix = strings.TrimSpace(prefix[:len(prefix)-1])
	}
	result.prefix = tidyUnit(prefix)
	for rest != "" {
		value, used, problem := scanNumber(rest)
		if problem != "" {
			return problem
		}
		rest = rest[used:]
		unit := unitRun(rest)
		rest = rest[len(unit):]
		result.terms = append(result.terms, term{value, tidyUnit(unit)})
	}
	if len(result.terms) == 0 {
		return "no number in it"
	}
	return ""
}

// typographic lists plain texts and the typographic characters that stand for them.
var typographic = [...][2]string{
	{" ", "\u00a0\u2009\u202f\u2007\t\n\r"},
	{"'", "′’‘´`ʹʼ＇"},
	{"\"", "″”“„ʺ＂〃"},
	{"-", "−–—‐‑"},
	{"°", "º˚"},
	{"2", "²"},
	{"3", "³"},
	{" 1/2", "½"},
	{" 1/4", "¼"},
	{" 3/4", "¾"},
	{" 1/3", "⅓"},
	{" 2/3", "⅔"},
	{" 1/8", "⅛"},
	{" 3/8", "⅜"},
	{" 5/8", "⅝"},
	{" 7/8", "⅞"},
}

// plain converts text to lower case and typographic characters to plain ones.
func plain(text string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(text) {
		if r >= ' ' && r < 0x7f {
			out.WriteByte(byte(r))
			continue
		}
		out.WriteString(plainSign(r))
	}
	return strings.TrimSpace(strings.ReplaceAll(out.String(), "''", "\""))
}

func plainSign(r rune) string {
	for i := range typographic {
		if strings.ContainsRune(typographic[i][1], r) {
			return typographic[i][0]
		}
	}
	return string(r)
}

// unitRun returns the text up to the next number.
func unitRun(text string) string {
	for i := 0; i < len(text); i++ {
		if digit(text[i]) {
			return text[:i]
		}
		startsDecimal := (text[i] == '.' || text[i] == ',') && i+1 < len(text) && digit(text[i+1])
		if startsDecimal && (i == 0 || text[i-1] == ' ' || text[i-1] == '-' || text[i-1] == '+') {
			return text[:i]
		}
	}
	return text
}

// tidyUnit removes hyphens, dots and commas around a unit.
func tidyUnit(unit string) string {
	unit = strings.Trim(unit, " -.,")
	if strings.ContainsAny(unit, " .") {
		unit = strings.Join(strings.Fields(strings.ReplaceAll(unit, ".", " ")), " ")
	}
	return unit
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// scanNumber reads the number at the start of text, with a fraction if one follows ("10 1/2"), and returns how many
// bytes it used.
func scanNumber(text string) (value float64, used int, why string) {
	end := 0
	for end < len(text) {
		separator := text[end] == '.' || text[end] == ','
		if !digit(text[end]) && !(separator && end+1 < len(text) && digit(text[end+1])) {
			break
		}
		end++
	}
	if over, width, ok := scanFraction(text); ok {
		return over, width, ""
	}
	value, why = readNumber(text[:end])
	if why != "" {
		return 0, 0, why
	}
	gap := len(text[end:]) - len(strings.TrimLeft(text[end:], " "))
	if gap > 0 && !strings.ContainsAny(text[:end], ".,") {
		if over, width, ok := scanFraction(text[end+gap:]); ok {
			return value + over, end + gap + width, ""
		}
	}
	return value, end, ""
}

// scanFraction reads "3/8" at the start of text.
func scanFraction(text string) (value float64, used int, ok bool) {
	slash := 0
	for slash < len(text) && digit(text[slash]) {
		slash++
	}
	end := slash + 1
	for end < len(text) && digit(text[end]) {
		end++
	}
	if slash == 0 || slash > 3 || slash >= len(text) || text[slash] != '/' || end == slash+1 || end-slash > 4 {
		return 0, 0, false
	}
	top, _ := strconv.Atoi(text[:slash])
	bottom, _ := strconv.Atoi(text[slash+1 : end])
	if bottom == 0 {
		return 0, 0, false
	}
	return float64(top) / float64(bottom), end, true
}

// readNumber reads digits with a decimal point or comma and, if unambiguous, grouped thousands ("1,234.5", "1.234,5",
// "1,234,567").
func readNumber(text string) (value float64, why string) {
	if len(text) > 24 {
		return 0, "too many digits"
	}
	last := strings.LastIndexAny(text, ".,")
	whole, decimals := text, ""
	if last >= 0 {
		whole, decimals = text[:last], text[last+1:]
		mark, other := text[last:last+1], ","
		if mark == "," {
			other = "."
		}
		switch {
		case strings.Contains(whole, mark) && strings.Contains(whole, other):
			return 0, "the commas and points do not make a number"
		case strings.Contains(whole, mark):
			whole, decimals = text, ""
		case mark == "," && !strings.Contains(whole, other) && len(decimals) == 3 && grouped(text, mark):
			return 0, "it could mean " + whole + "." + decimals + " or " + whole + decimals
		}
		for _, separator := range []string{",", "."} {
			if strings.Contains(whole, separator) {
				if !grouped(whole, separator) {
					return 0, "the commas and points do not make a number"
				}
				whole = strings.ReplaceAll(whole, separator, "")
			}
		}
	}
	value, err := strconv.ParseFloat("0"+whole+"."+decimals+"0", 64)
	if err != nil {
		return 0, "not a number"
	}
	return value, ""
}

// grouped reports whether whole is one to three digits that do not start with 0, followed by groups of three.
func grouped(whole, separator string) bool {
	groups := strings.Split(whole, separator)
	if len(groups[0]) == 0 || len(groups[0]) > 3 || groups[0][0] == '0' {
		return false
	}
	for _, group := range groups[1:] {
		if len(group) != 3 {
			return false
		}
	}
	return true
}
