package measure

import "strings"

// ByLanguage returns the system of units that people use for lengths where the first of the language tags is spoken:
// feet in the United States, Liberia and Myanmar, metres elsewhere, as CLDR has it (from memory). Tags are written as
// in the Accept-Language header: "en-GB,en;q=0.8". Without one it returns otherwise.
func ByLanguage(tags string, otherwise System) System {
	first, _, _ := strings.Cut(tags, ",")
	first, _, _ = strings.Cut(first, ";")
	parts := strings.Split(strings.ToLower(strings.TrimSpace(first)), "-")
	if parts[0] == "" || parts[0] == "*" {
		return otherwise
	}
	for _, part := range parts[1:] {
		if len(part) == 2 {
			return inFeet(oneOf(part, "us|lr|mm"))
		}
	}
	return inFeet(oneOf(parts[0], "en|my")) // most who write plain English here are in the United States
}

func inFeet(feet bool) System {
	if feet {
		return Imperial
	}
	return Metric
}
