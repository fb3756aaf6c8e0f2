package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc/order"
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
	return eachText(names, func(name string) g.Node {
		field, known := e.Noun.Field(name)
		if !known {
			return nothing
		}
		input := Field{Field: *field, Prefix: e.Prefix, Typed: shown.Values, Errors: shown.Errors, Units: f.Units,
			Options: e.Options[name], Colours: e.Colours, Clock: e.Clock}
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
	return html(`<form id="$" class="edit" method="post" action="$" data-core novalidate{}>{}</form>`, texts{id, action},
		g.If(live != "", attr("data-live", live)),
		these(inside...))
}

// WrongList says at the head of a form what is wrong with it, each line a link to its field. Empty when all is well.
func WrongList(n *job.Noun, state form.State, prefix string) g.Node {
	if state.OK() {
		return nothing
	}
	count := len(state.Errors)
	lead := "One thing needs a look. Nothing was saved; all you typed is still here."
	if count > 1 {
		lead = strconv.Itoa(count) + " things need a look. Nothing was saved; all you typed is still here."
	}
	return html(`<div class="wronglist" role="alert" aria-label="What needs a look"><p><b>$</b></p>
		{}
		<ul>{}</ul></div>`, texts{lead},
		g.If(state.Alert != "", txt("p", state.Alert)),
		eachText(asShown(n, state.Wrong()), func(key string) g.Node {
			return html(`<li><a href="#$">$</a></li>`, texts{domID("f", prefix+key), state.Errors[key]})
		}))
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
	order.By(keys, func(a, b int) bool { return place(keys[a]) < place(keys[b]) })
	return keys
}

// FieldRestore is the input that says: bring back what was removed meanwhile.
const FieldRestore = "restore"

// restoring carries the input of a form that was told of a removal.
func restoring(state form.State, prefix string) g.Node {
	return g.If(state.Get(FieldRestore) != "", Hidden(prefix+FieldRestore, "1"))
}

// Foot draws the buttons that end a form.
func Foot(label string, others ...g.Node) g.Node {
	return html(`<div class="foot"><button type="submit" class="go">$</button>{}</div>`, texts{label}, these(others...))
}

// ActButton draws a button that posts its form with an act of its own.
func ActButton(act, class, label string) g.Node {
	return html(`<button type="submit" name="$" value="$"{}>$</button>`, texts{FieldAct, act, label},
		g.If(class != "", h.Class(class)))
}

// ActForm draws a small form of its own with one button: an act on one thing of a page.
func ActForm(id, action, act, what, class string, label ...g.Node) g.Node {
	return html(`<form id="$" class="deed" method="post" action="$" data-core>
		{}{}<button type="submit"{}>{}</button></form>`, texts{id, action},
		Hidden(FieldAct, act), Hidden("id", what), g.If(class != "", h.Class(class)), these(label...))
}

// PartOf draws a titled part of a long form.
func PartOf(title, lead string, inside ...g.Node) g.Node {
	return html(`<section class="panel part"><div class="panelhead"><h2>$</h2></div>
		{}<div class="fields">{}</div></section>`, texts{title},
		g.If(lead != "", txt(`p class="soft"`, lead)),
		these(inside...))
}

// Folded draws a part of a form that is closed until asked for, unless open is set.
func Folded(id, title string, open bool, inside ...g.Node) g.Node {
	return html(`<details id="$" class="panel part folded"{}><summary>$</summary><div class="fields">{}</div></details>`,
		texts{id, title}, set(open, "open"), these(inside...))
}

// Node is a part of a page.
type Node = g.Node
