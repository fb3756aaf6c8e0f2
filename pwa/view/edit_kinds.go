package view

import (
	"slices"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/count"
)

func kindOf(name job.PieceKind) *count.Kind {
	kinds := count.Kinds()
	if k, known := count.KindOf(kinds, name); known {
		return k
	}
	return kinds[0]
}

// moreTitle names what is closed at first.
func moreTitle(k *count.Kind) string {
	switch {
	case slices.Contains(k.More, "bases"):
		return "Several bases, accents, notes"
	case slices.Contains(k.More, "accents"):
		return "Accents, priority, notes"
	case k.More[0] == "counts":
		return "Counts by colour, priority, notes"
	}
	return "Priority, notes"
}

// measured returns the measures, with those of the way its line runs.
func measured(k *count.Kind, line string) []string {
	if k.ByLine == nil {
		return k.Measures
	}
	return slices.Concat(k.Measures, k.ByLine(line))
}

// PieceFields are the fields that a piece of the kind is edited by, and those of them that may not be left empty. Line
// is how its line runs.
func PieceFields(kind job.PieceKind, line string) (all, needed []string) {
	k := kindOf(kind)
	all = slices.Concat([]string{"name", "kind"}, measured(k, line), k.Build, k.More)
	needed = append([]string{"name"}, k.Needed...)
	if k.ByLine != nil {
		needed = append(needed, k.ByLine(line)...)
	}
	for _, name := range k.Build {
		if name == "recipe" {
			needed = append(needed, name)
		}
	}
	return all, needed
}

// PieceStart returns the fields that a new piece of the kind begins with, where the noun's defaults do not fit.
func PieceStart(kind job.PieceKind) map[string]any {
	b := kindOf(kind).Begin
	fields := map[string]any{"name": b.Name, "kind": string(kind)}
	if b.Recipe != "" {
		fields["recipe"] = b.Recipe
	}
	if b.SizeIn > 0 {
		fields["size_in"] = b.SizeIn
	}
	if b.Gas != "" {
		fields["gas"] = b.Gas
	}
	if b.Built != "" {
		fields["built"] = b.Built
	}
	return fields
}

// KnownKind reports whether there is such a kind of piece.
func KnownKind(kind job.PieceKind) bool { return kindOf(kind).Name == kind }

// SizeChoices are the round sizes, to pick one of.
func SizeChoices() []job.Choice {
	choices := make([]job.Choice, 0, len(job.Sizes))
	for _, size := range job.Sizes {
		choices = append(choices, job.Choice{Value: strconv.Itoa(size), Label: inches(size)})
	}
	return choices
}

func kindLabel(kind job.PieceKind) string {
	for _, c := range job.PieceKinds() {
		if c.Value == string(kind) {
			return c.Label
		}
	}
	return string(kind)
}
