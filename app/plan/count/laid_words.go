package count

import (
	"strconv"
	"strings"

	"garlandry/app/plan/phrase"
	"garlandry/calc/pattern"
)

// Order writes the kinds of the clusters from one to another along the piece: "A B A 4 x C", or "A B C, over and over"
// where a stretch repeats three times or more.
func (l *Laid) Order(from, to int) string {
	from, to = max(0, from), min(to, len(l.Sequence))
	if from >= to {
		return ""
	}
	list := l.Sequence[from:to]
	if unit, times, rest := pattern.Repeats(list); times >= 3 && len(unit) > 1 {
		if len(rest) > 0 {
			return l.runs(unit) + ", over and over, and at the end " + l.runs(rest)
		}
		return l.runs(unit) + ", over and over"
	}
	return l.runs(list)
}

// OrderSteps says the order of the kinds in each part of the piece, given the starts of the parts and the end of the
// last: one step for all parts where they are alike. It returns none where there is but one kind.
func (l *Laid) OrderSteps(starts []int, part, from string) []string {
	parts := len(starts) - 1
	if len(l.Kinds) < 2 || parts < 1 {
		return nil
	}
	alike := true
	for i := range parts {
		alike = alike && l.Order(starts[i], starts[i+1]) == l.Order(starts[0], starts[1])
	}
	switch {
	case parts == 1:
		return []string{"In this order, " + from + ": " + l.Order(starts[0], starts[1]) + "."}
	case alike:
		return []string{"Each " + part + ", " + from + ": " + l.Order(starts[0], starts[1]) + "."}
	}
	steps := make([]string, parts)
	for i := range parts {
		steps[i] = strings.ToUpper(part[:1]) + part[1:] + " " + strconv.Itoa(i+1) + ", " + from + ": " +
			l.Order(starts[i], starts[i+1]) + "."
	}
	return steps
}

// InOrder says how the clusters of a base follow one another, part by part; nothing where all are alike.
func (c *PieceCount) InOrder() []string {
	switch {
	case c.Clusters == 0:
		return nil
	case len(c.Sections) == 0:
		return c.Laid.OrderSteps(c.Laid.strandStarts(), "row", "from its start or foot")
	}
	starts := []int{0}
	for _, s := range c.Sections {
		starts = append(starts, starts[len(starts)-1]+s.Clusters)
	}
	return c.Laid.OrderSteps(starts, "section", "from its start")
}

// strandStarts returns where each strand begins in the sequence, and its end.
func (l *Laid) strandStarts() []int {
	strands := max(1, l.Strands)
	starts := make([]int, strands+1)
	for i := range starts {
		starts[i] = i * len(l.Sequence) / strands
	}
	return starts
}

// runs writes a list, three or more of one kind in a row as a number.
func (l *Laid) runs(list []int) string {
	words := ""
	for _, run := range pattern.Runs(list) {
		name := l.Kinds[run.Kind].Name
		switch {
		case run.Count >= 3:
			words += " " + strconv.Itoa(run.Count) + " x " + name
		case run.Count == 2:
			words += " " + name + " " + name
		default:
			words += " " + name
		}
	}
	return strings.TrimSpace(words)
}

// Words writes what one cluster of a kind holds: "2 Coral, 1 Sand 11-inch; 2 Coral 18-inch".
func (k *ClusterKind) Words() string {
	words := ""
	for i, b := range k.By {
		switch {
		case i == 0:
		case k.By[i-1].SizeIn != b.SizeIn || k.By[i-1].ToIn != b.ToIn:
			words += " " + phrase.Inch(k.By[i-1].SizeIn) + "; "
		default:
			words += ", "
		}
		words += strconv.Itoa(b.Count) + " " + b.Colour.Name
	}
	if len(k.By) == 0 {
		return ""
	}
	return words + " " + phrase.Inch(k.By[len(k.By)-1].SizeIn)
}

// Listed writes how often each kind is made: "9 x A: 2 Coral, 1 Sand 11-inch. 4 x B: ...".
func (l *Laid) Listed() string {
	words := ""
	for i := range l.Kinds {
		if i > 0 {
			words += ". "
		}
		k := &l.Kinds[i]
		words += strconv.Itoa(k.Clusters) + " x " + k.Name + ": " + k.Words()
	}
	return words
}
