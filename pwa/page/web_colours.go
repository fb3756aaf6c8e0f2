package page

import "strings"

// webColours are common names of colours with their values, from CSS Color Module Level 4, section 6.1. A test checks
// them against its table.
const webColours = "" +
	" aqua:00ffff aquamarine:7fffd4 beige:f5f5dc blue:0000ff brown:a52a2a chocolate:d2691e crimson:dc143c " +
	"cyan:00ffff fuchsia:ff00ff gold:ffd700 gray:808080 green:008000 grey:808080 hotpink:ff69b4 indigo:4b0082 " +
	"ivory:fffff0 khaki:f0e68c lavender:e6e6fa lightblue:add8e6 lightgreen:90ee90 lightpink:ffb6c1 lime:00ff00 " +
	"linen:faf0e6 magenta:ff00ff maroon:800000 navy:000080 olive:808000 orange:ffa500 orchid:da70d6 " +
	"peachpuff:ffdab9 pink:ffc0cb purple:800080 royalblue:4169e1 salmon:fa8072 sienna:a0522d silver:c0c0c0 " +
	"skyblue:87ceeb tan:d2b48c teal:008080 tomato:ff6347 turquoise:40e0d0 violet:ee82ee wheat:f5deb3 yellow:ffff00"

// webColour returns the value of a named colour, "" if there is none. The name must be in lower-case letters only.
func webColour(name string) string {
	_, value, known := strings.Cut(webColours, " "+name+":")
	if !known {
		return ""
	}
	return "#" + value[:6]
}

// lettersOf returns a name in lower case without spaces and dashes: "Ink blue" equals "ink-blue".
func lettersOf(name string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' {
			return -1
		}
		return r
	}, strings.ToLower(name))
}
