package count

import (
	"slices"
	"strconv"
	"strings"
)

// What is picked by hand is stored as the keys of the kinds, then how many clusters in a row are of each, from the
// first cluster on: "11/coral/6 11/sand/6|3x1 2x0 2" is three clusters of the first kind, two that are not picked, and
// one of the second kind. The stored format is forever.

// ParseHand reads the key of the kind picked for each cluster, "" where none is. It ignores what it cannot read, and
// picks beyond the number of clusters.
func ParseHand(text string, clusters int) []string {
	keys := make([]string, 0, max(0, clusters))
	head, runs, _ := strings.Cut(text, "|")
	kinds := strings.Fields(head)
	for _, run := range strings.Fields(runs) {
		many, kind, found := strings.Cut(run, "x")
		if !found {
			many, kind = "1", many
		}
		n, err := strconv.Atoi(many)
		at, wrong := strconv.Atoi(kind)
		if err != nil || wrong != nil || n < 0 {
			break
		}
		key := ""
		if at >= 1 && at <= len(kinds) {
			key = kinds[at-1]
		}
		for range min(n, clusters-len(keys)) {
			keys = append(keys, key)
		}
	}
	return append(keys, make([]string, max(0, clusters-len(keys)))...)
}

// FormatHand writes what [ParseHand] reads; "" where nothing is picked.
func FormatHand(keys []string) string {
	for len(keys) > 0 && keys[len(keys)-1] == "" {
		keys = keys[:len(keys)-1]
	}
	var kinds []string
	runs := ""
	for i := 0; i < len(keys); {
		end := i
		for end < len(keys) && keys[end] == keys[i] {
			end++
		}
		at := 0
		if keys[i] != "" {
			if at = slices.Index(kinds, keys[i]) + 1; at == 0 {
				kinds = append(kinds, keys[i])
				at = len(kinds)
			}
		}
		runs += " "
		if end-i > 1 {
			runs += strconv.Itoa(end-i) + "x"
		}
		runs += strconv.Itoa(at)
		i = end
	}
	if runs == "" {
		return ""
	}
	return strings.Join(kinds, " ") + "|" + runs[1:]
}
