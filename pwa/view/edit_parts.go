package view

import (
	"sort"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// Editor is the part of a form that edits one entity: which fields, what stands in them, what they may refer to.
type Editor struct {
	Noun    job.Noun
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
			return g.Group{}
		}
		input := Field{Field: field, Prefix: e.Prefix, Typed: shown.Values, Errors: shown.Errors, Units: f.Units, Options: e.Options[name], Colours: e.Colours, Clock: e.Clock}
		if choices := e.Options[name]; len(choices) > 0 && field.Kind != job.Reference {
			input.Kind, input.Choices = job.OneOf, choices
		}
		return FieldInput(input)
	})
}

// all draws every field of the editor.
func (e Editor) all(f Frame) g.Node { return e.fields(f, e.Fields...) }

// EditForm draws a form that the phone's core can answer. Live, if not empty, is the address that draws the page anew
// while one types.
func EditForm(id, action, live string, inside ...g.Node) g.Node {
	return el("form", h.ID(id), h.Class("edit"), h.Method("post"), h.Action(action), g.Attr("data-core"), g.Attr("novalidate"),
		g.If(live != "", g.Attr("data-live", live)), g.Group(inside))
}

// WrongList says at the head of a form what is wrong with it, each line a link to its field. Empty when all is well.
func WrongList(n job.Noun, state form.State, prefix string) g.Node {
	if state.OK() {
		return g.Group{}
	}
	count := len(state.Errors)
	lead := "One thing needs a look. Nothing was saved; all you typed is still here."
	if count > 1 {
		lead = strconv.Itoa(count) + " things need a look. Nothing was saved; all you typed is still here."
	}
	return el(`div class="wronglist" role="alert" aria-label="What needs a look"`, el("p", txt("b", lead)),
		g.If(state.Alert != "", txt("p", state.Alert)),
		el("ul", g.Map(asShown(n, state.Wrong()), func(key string) g.Node {
			return el("li", el("a", h.Href("#"+domID("f", prefix+key)), g.Text(state.Errors[key])))
		})))
}

// asShown puts input names into the order of the noun's fields, which is that of its forms; others come last.
func asShown(n job.Noun, keys []string) []string {
	place := func(key string) int {
		name, _, _ := strings.Cut(key, ".")
		for i, field := range n.Fields {
			if field.Name == name || field.Name == key {
				return i
			}
		}
		return len(n.Fields)
	}
	sort.SliceStable(keys, func(a, b int) bool { return place(keys[a]) < place(keys[b]) })
	return keys
}

// Foot draws the buttons that end a form.
func Foot(label string, others ...g.Node) g.Node {
	return el(`div class="foot"`, txt(`button type="submit" class="go"`, label), g.Group(others))
}

// ActButton draws a button that posts its form with an act of its own.
func ActButton(act, class, label string) g.Node {
	return el(`button type="submit"`, h.Name(FieldAct), h.Value(act), g.If(class != "", h.Class(class)), g.Text(label))
}

// ActForm draws a small form of its own with one button: an act on one thing of a page.
func ActForm(id, action, act, what, class string, label ...g.Node) g.Node {
	return el("form", h.ID(id), h.Class("deed"), h.Method("post"), h.Action(action), g.Attr("data-core"),
		Hidden(FieldAct, act), Hidden("id", what), el(`button type="submit"`, g.If(class != "", h.Class(class)), g.Group(label)))
}

// PartOf draws a titled part of a long form.
func PartOf(title, lead string, inside ...g.Node) g.Node {
	return el(`section class="panel part"`, el(`div class="panelhead"`, txt("h2", title)),
		g.If(lead != "", txt(`p class="soft"`, lead)), el(`div class="fields"`, g.Group(inside)))
}

// Folded draws a part of a form that is closed until asked for, unless open is set.
func Folded(id, title string, open bool, inside ...g.Node) g.Node {
	return el("details", h.ID(id), h.Class("panel part folded"), g.If(open, g.Attr("open")), txt("summary", title), el(`div class="fields"`, g.Group(inside)))
}

// Node is a part of a page.
type Node = g.Node
