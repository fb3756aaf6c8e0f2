package view

import (
	"cmp"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/calc/stable"
	"garlandry/pwa/form"
)

// Editor is the part of a form that edits one entity: which fields, what stands in them, what they may refer to.
type Editor struct {
	Noun    *job.Noun
	Fields  []string
	State   form.State
	Prefix  string // before the input names, where a page edits several entities
	Colours []job.Colour
	Options map[string][]job.Choice // by field, for references and for numbers that are picked from a list
	Clock   bool                    // times are asked without their day
}

// fields draws some of the editor's fields, in the order named.
func (e Editor) fields(f Frame, names ...string) g.Node {
	shown := e.State.Prefixed(e.Prefix)
	return g.Map(names, func(name string) g.Node {
		field, known := e.Noun.Field(name)
		if !known {
			return nil
		}
		input := Field{Field: *field, Prefix: e.Prefix, Typed: shown.Values, Errors: shown.Errors, Units: f.Units,
			Options: e.Options[name], Colours: e.Colours, Clock: e.Clock}
		if choices := e.Options[name]; len(choices) > 0 && field.Kind != job.Reference {
			input.Kind, input.Choices = job.OneOf, choices
		}
		if name == "to_in" {
			input.Hint = usualIn(e.State.Get("size_in"))
		}
		return FieldInput(input)
	})
}

// usualIn writes the usual size of the balloon whose nominal size was typed: what an empty input means. It writes
// nothing if that is no size of the tables.
func usualIn(typed string) string {
	size, err := strconv.Atoi(strings.TrimSpace(typed))
	if err != nil || !job.KnownSize(size) {
		return ""
	}
	return measure.FormatNumber(latex.UsualIn(size), 2)
}

// all draws every field of the editor.
func (e Editor) all(f Frame) g.Node { return e.fields(f, e.Fields...) }

// WrongList says at the head of a form what is wrong with it, each line a link to its field. Empty when all is well.
func WrongList(n *job.Noun, state form.State, prefix string) g.Node {
	if state.OK() {
		return g.Group{}
	}
	lead := "Not saved: one thing needs a look."
	if n := len(state.Errors); n > 1 {
		lead = "Not saved: " + strconv.Itoa(n) + " things need a look."
	}
	return wrongBox(h.Aria("label", "What needs a look"), wrongLinks(lead, state, asShown(n, state.Wrong()), prefix))
}

// wrongBox draws what is wrong with a form, above it. The page's script has it announced, by #alarm.
func wrongBox(inside ...g.Node) g.Node {
	return h.Div(h.Class("wronglist"), h.Role("group"), h.TabIndex("-1"), g.Group(inside))
}

// wrongLinks draws the inside of a [wrongBox]: each error as a link to its field.
func wrongLinks(lead string, state form.State, keys []string, prefix string) g.Node {
	return g.Group{
		h.P(h.B(g.Text(lead))),
		g.If(state.Alert != "", h.P(g.Text(state.Alert))),
		h.Ul(g.Map(keys, func(key string) g.Node {
			return h.Li(h.A(h.Href("#"+domID("f", prefix+key)), g.Text(state.Errors[key])))
		})),
	}
}

// asShown puts input names into the order of the noun's fields, which is that of its forms; others come last.
func asShown(n *job.Noun, keys []string) []string {
	place := func(key string) int {
		name, _, _ := strings.Cut(key, ".")
		for i, field := range n.Fields {
			if field.Name == name || field.Name == key {
				return i
			}
		}
		return len(n.Fields)
	}
	stable.Sort(keys, func(a, b string) int { return cmp.Compare(place(a), place(b)) })
	return keys
}

// FieldRestore is the input that says: bring back what was removed meanwhile.
const FieldRestore = "restore"

// restoring carries the input of a form that was told of a removal.
func restoring(state form.State, prefix string) g.Node {
	return g.If(state.Get(FieldRestore) != "", Hidden(prefix+FieldRestore, "1"))
}

// Node is a part of a page.
type Node = g.Node
