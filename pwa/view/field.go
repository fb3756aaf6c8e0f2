package view

import (
	"slices"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// Field is one field of a form: what it is, what was typed, what is wrong with it.
//
// Names in the posted form follow package form: every kind posts its value under its name. Flags post "1" or nothing.
// Sizes post one value a ticked box. Shares post the weight of colour C under Name+"."+C. Typed counts post rows of
// values under Name+".ROW.size", ".to", ".colour" and ".count"; rows without a count are empty rows. Beside each stands
// the hidden "was." input, where Typed has one, so that only what was typed anew becomes a change.
type Field struct {
	job.Field
	Prefix  string              // before every name, for forms of several entities
	Typed   map[string][]string // what stands in the form now, by posted name; always shown as typed
	Error   string              // what is wrong with it; empty: nothing, or Errors[name] if that says something
	Errors  map[string]string   // by posted name, for fields of several inputs
	Units   measure.System
	Options []job.Choice // what a Reference may name
	Colours []job.Colour // palette, for Shares and TypedCounts
	Focus   bool         // the form opens here
	Clock   bool         // of a PointInTime only the time of day is asked
	Hint    string       // what an empty Number or Length means
}

func (f *Field) name() string { return f.Prefix + f.Field.Name }
func (f *Field) id() string   { return domID("f", f.name()) }

func (f *Field) typed() string {
	if v := f.Typed[f.name()]; len(v) > 0 {
		return v[0]
	}
	return ""
}

// FieldInput draws the field with its label, help and error, whatever its kind.
func FieldInput(f Field) g.Node {
	if f.Error == "" {
		f.Error = f.Errors[f.name()]
	}
	switch f.Kind {
	case job.Flag:
		return f.flag()
	case job.OneOf:
		if len(f.Choices) <= 4 {
			return f.group(f.radios(f.Choices))
		}
		return f.line(f.picker(f.Choices))
	case job.Reference:
		return f.line(f.picker(append([]job.Choice{{Value: "", Label: "None"}}, f.Options...)))
	case job.SizeList:
		return f.group(f.sizes())
	case job.Shares:
		return f.group(f.shares())
	case job.TypedCounts:
		return f.group(f.counts())
	case job.Spans:
		return f.group(f.spans())
	case job.Recipe:
		return f.recipe()
	case job.LongText:
		return f.line(h.Textarea(f.common(), h.Rows("3"), f.limit(), g.Text("\n"+f.typed())))
	}
	return f.line(h.Input(f.common(), f.keyboard(), h.Value(f.typed())))
}

// was draws the hidden input that carries what stood in an input when the form was opened, if Typed knows it.
func (f *Field) was(name string) g.Node {
	if v, known := f.Typed["was."+name]; known && len(v) > 0 {
		return Hidden("was."+name, v[0])
	}
	return nil
}

// common returns what every single input carries: its id and name, and the ids of help and error.
func (f *Field) common() g.Node {
	return g.Group{h.ID(f.id()), h.Name(f.name()), g.If(f.Required, h.Required()), f.described(),
		g.If(f.Focus, h.AutoFocus())}
}

func (f *Field) described() g.Node {
	var ids []string
	if f.Help != "" {
		ids = append(ids, f.id()+"-help")
	}
	if f.Error != "" {
		ids = append(ids, f.id()+"-error")
	}
	return g.Group{
		g.If(len(ids) > 0, h.Aria("describedby", strings.Join(ids, " "))),
		g.If(f.Error != "", h.Aria("invalid", "true")),
	}
}

// examples stand in empty fields of a kind, in the units of the job.
var examples = map[job.FieldKind]string{
	job.Length:      "3.2 m",
	job.SmallLength: "24 cm",
	job.Temperature: "21 C",
	job.Mass:        "1.5 kg",
	job.Speed:       "8 m/s",
	job.Volume:      "50 cu ft",
	job.Recipe:      "2x11@10 + 1x18@16",
	job.Lengths:     "2.1 m + 1.4 m",
}

// keyboard picks the input's type and the phone's keypad.
func (f *Field) keyboard() g.Node {
	text := g.Group{h.Type("text"), h.AutoComplete("off")}
	switch f.Kind {
	case job.Whole:
		if f.Min < 0 {
			return text
		}
		return g.Group{text, g.Attr("inputmode", "numeric")}
	case job.Number:
		return g.Group{text, g.Attr("inputmode", "decimal"), g.If(f.Hint != "", h.Placeholder(f.Hint))}
	case job.Day:
		return h.Type("date")
	case job.PointInTime:
		if f.Clock {
			return h.Type("time")
		}
		return h.Type("datetime-local")
	case job.HexColour:
		return h.Type("color")
	case job.Length, job.SmallLength, job.Temperature, job.Mass, job.Speed, job.Volume, job.Lengths, job.Recipe:
		return g.Group{text, g.Attr("autocapitalize", "off"), g.Attr("spellcheck", "false"),
			g.Attr("enterkeyhint", "next"), h.Placeholder(orElse(f.Hint, measure.InUnits(examples[f.Kind], f.Units)))}
	}
	return g.Group{text, f.limit()}
}

func (f *Field) limit() g.Node {
	return g.If(f.Max > 0 && (f.Kind == job.Text || f.Kind == job.LongText), h.MaxLength(strconv.Itoa(int(f.Max)*2)))
}

// line is a field of one input: label, input, help, error.
func (f *Field) line(input g.Node) g.Node {
	return FieldOf(f.id(), needed(f.Label, f.Required), f.Error, input, f.was(f.name()), FieldHelp(f.id(), f.Help))
}

// group is a field of several inputs under one legend.
func (f *Field) group(inputs g.Node) g.Node {
	return FieldGroup(f.id(), g.Text(f.Label), f.Error, f.described(),
		inputs,
		g.If(f.Kind == job.OneOf || f.Kind == job.SizeList || f.Kind == job.Spans, f.was(f.name())),
		FieldHelp(f.id(), f.Help))
}

func (f *Field) flag() g.Node {
	return h.Div(h.Class("field"), bad(f.Error),
		h.Label(h.Class("check"),
			h.Input(h.Type("checkbox"), f.common(), h.Value("1"),
				g.If(f.typed() == "1" || f.typed() == "true", h.Checked())),
			h.Span(g.Text(f.Label))),
		f.was(f.name()),
		FieldHelp(f.id(), f.Help),
		wrongLine(f.id(), f.Error))
}

func (f *Field) radios(choices []job.Choice) g.Node {
	return Segments(
		g.Map(choices, func(c job.Choice) g.Node {
			return Segment("radio", f.name(), c.Value, f.typed() == c.Value, g.Text(c.Label))
		}))
}

func (f *Field) picker(choices []job.Choice) g.Node {
	return h.Select(f.common(), options(f.typed(), choices))
}

// options draws the choices of a select. A value that is not among them, such as what was removed since, is an option
// as well: a browser would post another one for it.
func options(picked string, choices []job.Choice) g.Node {
	known := false
	for _, c := range choices {
		known = known || c.Value == picked
	}
	if !known {
		label := picked
		if picked != "" {
			label += " (removed)"
		}
		choices = append([]job.Choice{{Value: picked, Label: label}}, choices...)
	}
	return g.Map(choices, func(c job.Choice) g.Node {
		return h.Option(h.Value(c.Value), g.If(c.Value == picked, h.Selected()), g.Text(c.Label))
	})
}

func (f *Field) sizes() g.Node {
	return Segments(
		g.Map(job.Sizes[:], func(size int) g.Node {
			value := strconv.Itoa(size)
			return Segment("checkbox", f.name(), value, slices.Contains(f.Typed[f.name()], value), g.Text(value+" in"))
		}))
}

// spans draws each time with its beginning and its end, and room for one more.
func (f *Field) spans() g.Node {
	typed := f.Typed[f.name()]
	for len(typed) > 0 && typed[len(typed)-1] == "" {
		typed = typed[:len(typed)-1]
	}
	rows := min((len(typed)+1)/2+1, job.MaxSpans)
	inputs := make(g.Group, 2*rows)
	for i := range inputs {
		label, value := "From", ""
		if i%2 == 1 {
			label = "Until"
		}
		if i < len(typed) {
			value = typed[i]
		}
		inputs[i] = h.Label(h.Span(g.Text(label)),
			h.Input(h.Type("datetime-local"), h.Name(f.name()), h.Value(value)))
	}
	return h.Div(h.Class("spans"), inputs)
}

func (f *Field) at(name string) string {
	if v := f.Typed[name]; len(v) > 0 {
		return v[0]
	}
	return ""
}

// wrong draws the error of one input among several.
func (f *Field) wrong(name string) g.Node {
	text := f.Errors[name]
	if text == "" || name == f.name() {
		return nil
	}
	return wrongLine(domID("f", name), text)
}

func (f *Field) wrongRef(name string) g.Node { return invalid(domID("f", name), f.Errors[name]) }

func (f *Field) shares() g.Node {
	if len(f.Colours) == 0 {
		return h.P(h.Class("help"), g.Text("Add a colour first."))
	}
	return h.Div(h.Class("shares"),
		g.Map(f.Colours, func(c job.Colour) g.Node {
			name := f.name() + "." + c.ID
			return g.Group{
				h.Label(Swatch(c),
					h.Span(g.Text(c.Name)),
					h.Input(h.Type("text"), h.ID(domID("f", name)), h.Name(name), h.Value(f.at(name)),
						g.Attr("inputmode", "decimal"), h.AutoComplete("off"), h.Placeholder("0"),
						f.wrongRef(name))),
				f.was(name),
				f.wrong(name),
			}
		}))
}

// rowsShown is how many rows of typed counts are drawn: those with something in them and two more.
func (f *Field) rowsShown() int {
	last := 0
	for name := range f.Typed {
		rest, found := strings.CutPrefix(name, f.name()+".")
		if !found {
			continue
		}
		row, part, _ := strings.Cut(rest, ".")
		if n, err := strconv.Atoi(row); err == nil && part == "count" && n >= 0 && n < 200 && f.at(name) != "" {
			last = max(last, n+1)
		}
	}
	return last + 2
}

func (f *Field) counts() g.Node {
	rows := make([]g.Node, 0, f.rowsShown())
	for row := range f.rowsShown() {
		rows = append(rows, f.countRow(row))
	}
	return Table("typedcounts", "", []string{"How many", "Size", "Colour", "Sized to, in"}, rows...)
}

func (f *Field) countRow(row int) g.Node {
	name := func(part string) string { return f.name() + "." + strconv.Itoa(row) + "." + part }
	cell := func(part, what string, input func(shared g.Node) g.Node) g.Node {
		shared := g.Group{h.Aria("label", what+", row "+strconv.Itoa(row+1)), h.ID(domID("f", name(part))),
			h.Name(name(part)), f.wrongRef(name(part))}
		return h.Td(input(shared), f.was(name(part)), f.wrong(name(part)))
	}
	typed := func(part, keypad string) func(g.Node) g.Node {
		return func(shared g.Node) g.Node {
			return h.Input(h.Type("text"), shared, h.Value(f.at(name(part))), g.Attr("inputmode", keypad),
				h.AutoComplete("off"))
		}
	}
	var colours []job.Choice
	for i := range f.Colours {
		colours = append(colours, job.Choice{Value: f.Colours[i].ID, Label: f.Colours[i].Name})
	}
	picked := func(part, fresh string, choices []job.Choice) func(g.Node) g.Node {
		return func(shared g.Node) g.Node {
			return h.Select(shared, options(orElse(f.at(name(part)), fresh), choices))
		}
	}
	first := ""
	if len(colours) > 0 {
		first = colours[0].Value
	}
	return h.Tr(cell("count", "How many", typed("count", "numeric")),
		cell("size", "Size", picked("size", "11", SizeChoices())),
		cell("colour", "Colour", picked("colour", first, colours)),
		cell("to", "Sized to, inches", func(shared g.Node) g.Node {
			usual := h.Placeholder(usualIn(orElse(f.at(name("size")), "11")))
			return typed("to", "decimal")(g.Group{shared, usual})
		}))
}
