package view

import (
	"strconv"

	"garlandry/app/job"
)

// kindForm is what the form of a kind of piece asks.
type kindForm struct {
	kind     job.PieceKind
	teach    string   // what it is, in one line
	measures []string // that make it what it is
	needed   []string // of the measures
	build    []string // what it is built of
	more     []string // closed at first
	begins   begin
}

// begin is what a new piece starts with, where the noun's default does not fit.
type begin struct {
	name, recipe string
	sizeIn       int
	toIn         float64
}

// kindForms are the forms of all kinds, in the order in which they are offered.
var kindForms = []kindForm{
	{job.Garland, "Clusters on a string, along a wall, a beam or a frame.", []string{"line"}, nil,
		[]string{
			"frame",
			"recipe",
			"colours",
		}, []string{"accents", "accent_cover_pct", "accent_recipe", "accent_colours", "priority", "built", "ahead", "notes"}, begin{name: "Garland"}},
	{job.Hoop, "A garland on part of a round frame.", []string{"diameter_mm", "part_pct", "part_at"},
		[]string{"diameter_mm", "part_pct"}, []string{"frame", "recipe", "colours"},
		[]string{"accents", "accent_cover_pct", "accent_recipe", "accent_colours", "priority", "built", "ahead", "notes"},
		begin{name: "Hoop garland"}},
	{job.Column, "Clusters stacked on a pole, each turned against the last.", []string{"height_mm", "count"},
		[]string{"height_mm", "count"}, []string{"recipe", "colours"},
		[]string{"accents", "accent_recipe", "accent_colours", "priority", "built", "ahead", "notes"},
		begin{name: "Columns", recipe: "2x11@9.5"}},
	{job.Wall, "A closed surface of clusters, as wide and high as you say.", []string{"width_mm", "height_mm"},
		[]string{"width_mm", "height_mm"}, []string{"frame", "recipe", "colours"},
		[]string{"accents", "accent_recipe", "accent_colours", "priority", "built", "ahead", "notes"},
		begin{name: "Wall", recipe: "2x11@10"}},
	{job.Bouquets, "Balloons on ribbons from a weight.", []string{"count", "each", "size_in", "to_in", "gas"},
		[]string{"count", "each", "size_in", "to_in"}, []string{"colours"},
		[]string{"counts", "priority", "built", "ahead", "notes"}, begin{name: "Bouquets"}},
	{job.Tables, "A small piece on each table.", []string{"count", "each", "size_in", "to_in", "gas"},
		[]string{"count", "each", "size_in", "to_in"}, []string{"colours"},
		[]string{"counts", "priority", "built", "ahead", "notes"}, begin{name: "Table pieces"}},
	{job.Numbers, "Figures as frames filled with small balloons.", []string{"digits", "height_mm", "size_in", "to_in"},
		[]string{"digits", "height_mm", "size_in", "to_in"}, []string{"frame", "colours"},
		[]string{"priority", "built", "ahead", "notes"}, begin{name: "Number frame", sizeIn: 5, toIn: 4.5}},
	{job.Free, "Anything else: you type how many balloons it takes.", []string{"counts"}, nil, nil,
		[]string{"priority", "built", "ahead", "notes"}, begin{name: "Piece"}},
}

func kindOf(kind job.PieceKind) kindForm {
	for _, form := range kindForms {
		if form.kind == kind {
			return form
		}
	}
	return kindForms[0]
}

// moreTitle names what is closed at first.
func (k kindForm) moreTitle() string {
	switch k.more[0] {
	case "accents":
		return "Accents, priority, notes"
	case "counts":
		return "Counts by colour, priority, notes"
	}
	return "Priority, notes"
}

// measured gives the measures, with those of the garland's line.
func (k kindForm) measured(line string) []string {
	if k.kind != job.Garland {
		return k.measures
	}
	if line == "arc" || line == "arch" {
		return append(append([]string(nil), k.measures...), "width_mm", "height_mm")
	}
	return append(append([]string(nil), k.measures...), "length_mm")
}

// PieceFields are the fields that a piece of the kind is edited by, and those of them that may not be left empty. Line
// is how a garland runs.
func PieceFields(kind job.PieceKind, line string) (all, needed []string) {
	k := kindOf(kind)
	all = append(all, "name", "kind")
	all = append(all, k.measured(line)...)
	all = append(all, k.build...)
	all = append(all, k.more...)
	needed = append(append(needed, "name"), k.needed...)
	if kind == job.Garland {
		needed = append(needed, k.measured(line)[1:]...)
	}
	for _, name := range k.build {
		if name == "recipe" {
			needed = append(needed, name)
		}
	}
	return all, needed
}

// PieceStart gives the fields that a new piece of the kind begins with, where the noun's defaults do not fit.
func PieceStart(kind job.PieceKind) map[string]any {
	b := kindOf(kind).begins
	fields := map[string]any{"name": b.name, "kind": string(kind)}
	if b.recipe != "" {
		fields["recipe"] = b.recipe
	}
	if b.sizeIn > 0 {
		fields["size_in"], fields["to_in"] = b.sizeIn, b.toIn
	}
	return fields
}

// KnownKind reports whether there is such a kind of piece.
func KnownKind(kind job.PieceKind) bool { return kindOf(kind).kind == kind }

// SizeChoices are the round sizes, to pick one of.
func SizeChoices() []job.Choice {
	choices := make([]job.Choice, 0, len(job.Sizes))
	for _, size := range job.Sizes {
		choices = append(choices, job.Choice{Value: strconv.Itoa(size), Label: inches(size)})
	}
	return choices
}

func kindLabel(kind job.PieceKind) string {
	n, _ := job.FindNoun("piece/x")
	field, _ := n.Field("kind")
	for _, c := range field.Choices {
		if c.Value == string(kind) {
			return c.Label
		}
	}
	return string(kind)
}
