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
	case job.LongText:
		return f.line(html(`<textarea{} rows="3"{}>$</textarea>`, texts{"\n" + f.typed()}, f.common(), f.limit()))
	}
	return f.line(html(`<input{}{} value="$">`, texts{f.typed()}, f.common(), f.keyboard()))
}

// was draws the hidden input that carries what stood in an input when the form was opened, if Typed knows it.
func (f *Field) was(name string) g.Node {
	if v, known := f.Typed["was."+name]; known && len(v) > 0 {
		return Hidden("was."+name, v[0])
	}
	return nothing
}

// common gives what every single input carries: its id and name, and the ids of help and error.
func (f *Field) common() g.Node {
	return g.Group{h.ID(f.id()), h.Name(f.name()), g.If(f.Required, h.Required()), f.described(),
		g.If(f.Focus, h.AutoFocus())}
}

func (f *Field) described() g.Node {
	var ids []string
	if f.help() != "" {
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

// examples are of what may be typed into fields of a kind.
var examples = glossary{
	{string(job.Length), "such as 3.2 m or 10 ft 6"}, {string(job.SmallLength), "such as 24 cm or 9.5 in"},
	{
		string(job.Temperature),
		"such as 21 C or 70 F",
	}, {string(job.Mass), "such as 1.5 kg or 3 lb"}, {string(job.Recipe), "such as 2x11@10 + 1x18@16"},
	{string(job.Lengths), "parted by semicolons: 2.4 m; 3 m"},
}

// help is the field's help with what may be typed into it.
func (f *Field) help() string {
	example := examples.of(string(f.Kind))
	if f.Kind == job.Recipe && f.Help != "" {
		example = ""
	}
	switch {
	case example == "":
		return f.Help
	case f.Help == "":
		return capital(example) + "."
	}
	return f.Help + " " + capital(example) + "."
}

// keyboard picks the input's type and the phone's keypad.
func (f *Field) keyboard() g.Node {
	const text = `type="text" autocomplete="off"`
	switch f.Kind {
	case job.Whole:
		if f.Min < 0 {
			return attributes(text)
		}
		return attributes(text + ` inputmode="numeric"`)
	case job.Number:
		return attributes(text + ` inputmode="decimal"`)
	case job.Day:
		return attributes(`type="date"`)
	case job.PointInTime:
		if f.Clock {
			return attributes(`type="time"`)
		}
		return attributes(`type="datetime-local"`)
	case job.HexColour:
		return attributes(`type="color"`)
	case job.Length, job.SmallLength, job.Temperature, job.Mass, job.Lengths, job.Recipe:
		return attributes(text + ` autocapitalize="off" spellcheck="false" enterkeyhint="next"`)
	}
	return g.Group{attributes(text), f.limit()}
}

func (f *Field) limit() g.Node {
	return g.If(f.Max > 0 && (f.Kind == job.Text || f.Kind == job.LongText), h.MaxLength(strconv.Itoa(int(f.Max)*2)))
}

// line is a field of one input: label, input, help, error.
func (f *Field) line(input g.Node) g.Node {
	return html(`<div class="field"{}>
		<label for="$">${}</label>{}{}{}</div>`, texts{f.id(), f.Label},
		bad(f.Error),
		g.If(f.Required, txt(`span class="needed"`, " needed")),
		input, f.was(f.name()), f.notes())
}

// group is a field of several inputs under one legend.
func (f *Field) group(inputs g.Node) g.Node {
	return html(`<fieldset class="field" id="$"{}{}>
		<legend>$</legend>{}{}{}</fieldset>`, texts{f.id(), f.Label},
		f.described(), bad(f.Error), inputs,
		g.If(f.Kind == job.OneOf || f.Kind == job.SizeList || f.Kind == job.Spans, f.was(f.name())),
		f.notes())
}

func (f *Field) notes() g.Node {
	return these(
		g.Iff(f.help() != "", func() g.Node { return html(`<p class="help" id="$-help">$</p>`, texts{f.id(), f.help()}) }),
		g.Iff(f.Error != "", func() g.Node {
			return html(`<p class="wrong" id="$-error">{care}<span>$</span></p>`, texts{f.id(), f.Error})
		}),
	)
}

func (f *Field) flag() g.Node {
	return html(`<div class="field"{}>
		<label class="check"><input type="checkbox"{} value="1"{}><span>$</span></label>{}{}</div>`, texts{f.Label},
		bad(f.Error), f.common(),
		set(f.typed() == "1" || f.typed() == "true", "checked"),
		f.was(f.name()), f.notes())
}

func (f *Field) radios(choices []job.Choice) g.Node {
	return el(`div class="segments"`, each(len(choices), func(i int) g.Node {
		c := choices[i]
		return html(`<label><input type="radio" name="$" value="$"{}><span>$</span></label>`,
			texts{f.name(), c.Value, c.Label}, set(f.typed() == c.Value, "checked"))
	}))
}

func (f *Field) picker(choices []job.Choice) g.Node {
	return el("select", f.common(), options(f.typed(), choices))
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
	return each(len(choices), func(i int) g.Node {
		c := choices[i]
		return html(`<option value="$"{}>$</option>`, texts{c.Value, c.Label}, set(c.Value == picked, "selected"))
	})
}

func (f *Field) sizes() g.Node {
	return el(`div class="segments"`, each(len(job.Sizes), func(i int) g.Node {
		size := job.Sizes[i]
		value := strconv.Itoa(size)
		return html(`<label><input type="checkbox" name="$" value="$"{}>
			<span>$ in</span></label>`, texts{f.name(), value, value},
			set(slices.Contains(f.Typed[f.name()], value), "checked"))
	}))
}

// spans draws each time with its beginning and its end, and room for one more.
func (f *Field) spans() g.Node {
	typed := f.Typed[f.name()]
	for len(typed) > 0 && typed[len(typed)-1] == "" {
		typed = typed[:len(typed)-1]
	}
	rows := min((len(typed)+1)/2+1, job.MaxSpans)
	return el(`div class="spans"`, each(2*rows, func(i int) g.Node {
		value := ""
		if i < len(typed) {
			value = typed[i]
		}
		return html(`<label><span>$</span><input type="datetime-local" name="$" value="$"></label>`,
			texts{pick(i%2 == 0, "From", "Until"), f.name(), value})
	}))
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
		return nothing
	}
	return html(`<p class="wrong" id="$-error">{care}<span>$</span></p>`, texts{domID("f", name), text})
}

func (f *Field) wrongRef(name string) g.Node {
	if f.Errors[name] == "" {
		return nothing
	}
	return g.Group{h.Aria("invalid", "true"), h.Aria("describedby", domID("f", name)+"-error")}
}

func (f *Field) shares() g.Node {
	if len(f.Colours) == 0 {
		return txt(`p class="help"`, "There is no colour in this job yet: add one first.")
	}
	return el(`div class="shares"`, each(len(f.Colours), func(i int) g.Node {
		c := f.Colours[i]
		name := f.name() + "." + c.ID
		return these(html(`<label>{}<span>$</span>
			<input type="text" id="$" name="$" value="$" inputmode="decimal" autocomplete="off" placeholder="0"{}></label>`, texts{c.Name, domID("f", name), name, f.at(name)},
			Swatch(c), f.wrongRef(name)),
			f.was(name), f.wrong(name))
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
	return html(`<table class="typedcounts">
		<thead><tr><th scope="col">How many</th><th scope="col">Size</th><th scope="col">Colour</th><th scope="col">Sized to, in</th></tr></thead>
		<tbody>{}</tbody></table>`, nil,
		these(rows...))
}

func (f *Field) countRow(row int) g.Node {
	name := func(part string) string { return f.name() + "." + strconv.Itoa(row) + "." + part }
	cell := func(part, what string, input func(shared g.Node) g.Node) g.Node {
		shared := g.Group{h.Aria("label", what+", row "+strconv.Itoa(row+1)), h.ID(domID("f", name(part))),
			h.Name(name(part)), f.wrongRef(name(part))}
		return el("td", input(shared), f.was(name(part)), f.wrong(name(part)))
	}
	typed := func(part, keypad string) func(g.Node) g.Node {
		return func(shared g.Node) g.Node {
			return html(`<input type="text"{} value="$" inputmode="$" autocomplete="off">`, texts{f.at(name(part)), keypad},
				shared)
		}
	}
	var colours []job.Choice
	for i := range f.Colours {
		colours = append(colours, job.Choice{Value: f.Colours[i].ID, Label: f.Colours[i].Name})
	}
	picked := func(part, fresh string, choices []job.Choice) func(g.Node) g.Node {
		return func(shared g.Node) g.Node {
			return el("select", shared, options(orElse(f.at(name(part)), fresh), choices))
		}
	}
	first := ""
	if len(colours) > 0 {
		first = colours[0].Value
	}
	return el("tr",
		cell("count", "How many", typed("count", "numeric")),
		cell("size", "Size", picked("size", "11", SizeChoices())),
		cell("colour", "Colour", picked("colour", first, colours)),
		cell("to", "Sized to, inches", typed("to", "decimal")))
}
