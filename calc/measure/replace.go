package measure

import "strings"

// Replace returns text with every old replaced by the new that follows it in pairs. It goes through text once:
// replacements are not replaced again, and where several olds match, the first one counts. (A [strings.Replacer] does
// the same and weighs more than the rest of this package.)
func Replace(text string, pairs ...string) string {
	var out strings.Builder
next:
	for text != "" {
		for i := 0; i+1 < len(pairs); i += 2 {
			if rest, found := strings.CutPrefix(text, pairs[i]); found {
				out.WriteString(pairs[i+1])
				text = rest
				continue next
			}
		}
		out.WriteByte(text[0])
		text = text[1:]
	}
	return out.String()
}
