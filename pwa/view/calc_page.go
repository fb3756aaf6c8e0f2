package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// CalcPage is what a calculator's page shows.
type CalcPage struct {
	Calculator calc.Calculator
	State      form.State // what was typed, by input key
	Result     *calc.Result
	Worked     bool         // the result is that of the example, nothing was typed yet
	Uses       []CalcUse    // where the result can be put
	Own        []CalcOwn    // pushes of jobs that a measurement here could replace
	Mine       []CalcMine   // other figures and kit of jobs that it could
	Theirs     []CalcTheirs // the visitor's own figures that it used, where nothing was typed
	Kit        [][2]string  // address and words: what a kit has measured already
	Units      measure.System
	Jobs       []job.Choice

	TheirJob, TheirTitle string // the job that these figures stand in
}

// CalcTheirs is one of the visitor's own figures, in place of the table's.
type CalcTheirs struct {
	Label, Text, Note string
}

// CalcUse is a piece that the result can be put into.
type CalcUse struct {
	Job, JobTitle, Piece, PieceName string
	Label                           string      // what is put there: "length 3.2 m, recipe 2x11@10"
	Fields                          [][2]string // field and text, as they are typed
}

// CalcOwn is a job that can use a visitor's own measurement instead of the table's figure.
type CalcOwn struct {
	Job, JobTitle, Figure string
	Theirs                string // the job's own figure; empty while the table's holds
	Push                  string // what was measured or typed here; empty if nothing was
	Note                  string // how it is known
}

// CalcMine is an entity of a job that can take over a visitor's own measurement.
type CalcMine struct {
	Job, JobTitle, ID string
	Page              address.Page // that takes it
	Label             string
	Fields            [][2]string
}

// CalcUnits names the input that says in which units a visitor counts.
const CalcUnits = "units"

// Calc draws a calculator: what it asks, the result large, a drawing to scale, the working, sources, cautions.
func Calc(f Frame, p CalcPage) g.Node {
	c := &p.Calculator
	to := address.Calculator.Path(c.Name)
	return g.Group{
		Shades(sand(), gold()),
		Heading(c.Group, c.Title),
		Lead(c.Purpose + "."),
		h.Div(h.Class("calc"),
			h.Form(h.ID("calc"), h.Class("edit"), h.Method("get"), h.Action(to+"#result"),
				h.Data("live", to), g.Attr("data-keep"),
				g.Attr("novalidate"),
				calcWrong(p.State.Alert),
				calcUnits(f),
				calcInputs(f, &p),
				Foot(labelWorkOut)),
			calcResult(f, &p)),
		calcKit(p.Kit),
		calcOwn(&p),
		calcUses(p.Uses),
		calcSources(p.Result),
	}
}

func calcWrong(alert string) g.Node {
	if alert == "" {
		return nil
	}
	return wrongBox(h.ID("calc-wrong"), h.P(g.Text(alert)))
}

// calcUnits asks for the units. Every part of the form has an id, so that the field in use stays where it is when a
// message appears above it.
func calcUnits(f Frame) g.Node {
	return FieldGroup("calc-units", hiddenLegend("Units"), "",
		Segments(
			Segment("radio", CalcUnits, string(measure.Imperial), f.Units == measure.Imperial, g.Text("Feet and inches")),
			Segment("radio", CalcUnits, string(measure.Metric), f.Units == measure.Metric, g.Text("Metres"))))
}

func calcInputs(f Frame, p *CalcPage) g.Node {
	var first, advanced []g.Node
	open := false
	for i := range p.Calculator.Inputs {
		in := &p.Calculator.Inputs[i]
		drawn := calcInput(f, in, p.State.Get(in.Key), p.State.Errors[in.Key])
		if in.Advanced {
			advanced = append(advanced, drawn)
			open = open || p.State.Get(in.Key) != "" && p.State.Get(in.Key) != in.Default || p.State.Errors[in.Key] != ""
			continue
		}
		first = append(first, drawn)
	}
	var more g.Node
	if len(advanced) > 0 {
		more = Folded("calc-more", "More settings", open, advanced...)
	}
	return g.Group{
		Panel("", "", h.ID("calc-inputs"), Fields(first...)),
		more,
	}
}

func calcInput(f Frame, in *calc.Input, typed, wrong string) g.Node {
	id := domID("f", in.Key)
	var described g.Group
	refs := ""
	if in.Help != "" {
		refs = id + "-help "
	}
	if wrong != "" {
		refs += id + "-error"
		described = append(described, h.Aria("invalid", "true"))
	}
	if refs != "" {
		described = append(described, h.Aria("describedby", strings.TrimSpace(refs)))
	}
	var input g.Node
	switch in.Kind {
	case calc.KindChoice:
		input = calcPicker(id, in, typed, in.Choices, described)
	case calc.KindFlag:
		input = calcPicker(id, in, typed, []string{"no", "yes"}, described)
	default:
		hint := in.DefaultText(f.Units)
		if hint == "" {
			hint = in.ExampleIn(f.Units)
		}
		input = h.Input(h.ID(id), h.Name(in.Key), h.Type("text"), h.AutoComplete("off"),
			g.Attr("autocapitalize", "off"), g.Attr("spellcheck", "false"),
			g.If(in.Kind == calc.KindCount, g.Attr("inputmode", "numeric")), h.Placeholder(hint), h.Value(typed),
			described)
	}
	return FieldOf(id, needed(in.Label, in.Required), wrong, input, FieldHelp(id, measure.InUnits(in.Help, f.Units)))
}

func calcPicker(id string, in *calc.Input, typed string, choices []string, described g.Node) g.Node {
	if typed == "" {
		typed = in.Default
	}
	strange := h.Option(h.Value(typed), h.Selected(), g.Text(orElse(typed, "Pick one")))
	for _, c := range choices {
		if c == typed {
			strange = nil
		}
	}
	return h.Select(h.ID(id), h.Name(in.Key), described, strange,
		g.Map(choices, func(c string) g.Node {
			return h.Option(h.Value(c), g.If(c == typed, h.Selected()), g.Text(strings.ReplaceAll(c, "_", " ")))
		}))
}

func calcResult(f Frame, p *CalcPage) g.Node {
	if p.Result == nil {
		return ResultPanel("result", "", calcWants(p))
	}
	r, c := p.Result, &p.Calculator
	var story, figures g.Node
	if p.Worked {
		told := "Example, until you type"
		if said := c.ExampleIn(f.Units).Story; said != "" {
			told += ": " + said
		}
		story = Soft(told + ".")
	}
	var large, small []g.Node
	var sentence []string
	for i := range c.Outputs {
		out := &c.Outputs[i]
		value, there := r.Outputs[out.Key]
		if !there {
			continue
		}
		text := out.Format(value, f.Units)
		if out.Main {
			large = append(large, Big(text, strings.ToLower(out.Label)))
			sentence = append(sentence, text+" "+strings.ToLower(out.Label))
			continue
		}
		small = append(small,
			h.Div(h.Dt(g.Text(out.Label)),
				h.Dd(h.B(g.Text(text)), h.Small(h.Class("soft"), g.Text(" "+out.Meaning)))))
	}
	if len(small) > 0 {
		figures = h.Dl(h.Class("figures"), g.Group(small))
	}
	return ResultPanel("result", strings.Join(sentence, ", "), story,
		calcTheirs(p),
		g.Group(large),
		calcPicture(r),
		g.Map(r.Notes, func(note string) g.Node { return h.P(h.Class("note"), g.Text(note)) }),
		figures,
		calcWorking(r.Working),
		warnings(c.Cautions))
}

// calcWants says what keeps the result away. Without scripts the eye is led here even then.
func calcWants(p *CalcPage) g.Node {
	for i := range p.Calculator.Inputs {
		if in := &p.Calculator.Inputs[i]; p.State.Errors[in.Key] != "" {
			return h.P(h.Class("soft"), g.Text("No result yet: check "),
				h.A(h.Href("#"+domID("f", in.Key)), g.Text("“"+in.Label+"”")), g.Text("."))
		}
	}
	return Soft("The result appears here once the form is filled in.")
}

// calcTheirs says which of the visitor's own figures were used.
func calcTheirs(p *CalcPage) g.Node {
	if len(p.Theirs) == 0 {
		return nil
	}
	theirs := make([]string, len(p.Theirs))
	for i, t := range p.Theirs {
		theirs[i] = t.Label + ": " + t.Text
		if t.Note != "" {
			theirs[i] += " (" + t.Note + ")"
		}
	}
	return h.P(h.Class("soft"), h.ID("calc-theirs"),
		h.Span(h.Class("markof"), g.Text("measured by you")),
		g.Text(" "),
		g.Text(strings.Join(theirs, "; ")),
		g.Text(". "),
		h.A(h.Href(address.Figures.Path(p.TheirJob)), g.Text("My numbers for "+p.TheirTitle)),
		g.Text(". Type another value to use that instead."))
}

func calcPicture(r *calc.Result) g.Node {
	if picture := r.Picture(); picture != nil {
		return Draw(*picture)
	}
	return nil
}

func calcWorking(lines []calc.Line) g.Node {
	if len(lines) == 0 {
		return nil
	}
	return Disclosure("working", labelMaths, h.ID("calc-working"),
		h.Dl(g.Map(lines, func(x calc.Line) g.Node {
			return h.Div(h.Dt(g.Text(x.Label)),
				h.Dd(h.Span(h.Class("formula"), g.Text(x.Formula)), g.Text(" "),
					h.B(g.Text(x.Value))))
		})))
}

// calcSources lists the sources of what the result used.
func calcSources(r *calc.Result) g.Node {
	if r == nil || len(r.Sources) == 0 {
		return nil
	}
	return Folded("calc-sources", "Sources", false,
		h.Ul(h.Class("sources"),
			g.Map(r.Sources, func(x calc.Source) g.Node {
				return h.Li(h.Span(h.Class("markof"), g.Text(x.Mark)), g.Text(" "+x.Text))
			})))
}

// calcUses offers to put the result into a piece. It posts to the piece's own page, which checks it.
func calcUses(uses []CalcUse) g.Node {
	if len(uses) == 0 {
		return nil
	}
	return Folded("calc-uses", "Use it in a piece", false, h.Ul(g.Map(uses, func(u CalcUse) g.Node {
		return h.Li(calcAction(domID("use", u.Job+"-"+u.Piece), address.Piece.Path(u.Job, u.Piece), u.PieceName,
			u.JobTitle+": "+u.Label, append([][2]string{{FieldAct, "use"}}, u.Fields...)))
	})))
}

// calcKit offers the measurements in the kit.
func calcKit(kit [][2]string) g.Node {
	if len(kit) == 0 {
		return nil
	}
	return Folded("calc-kit", "Use an earlier measurement", false, h.Ul(g.Map(kit, func(x [2]string) g.Node {
		return h.Li(h.A(h.Class("row"), h.Href(x[0]), g.Text(x[1])))
	})))
}

// calcOwn says whose push was used, and offers the visitor's own to their jobs.
func calcOwn(p *CalcPage) g.Node {
	if len(p.Mine) > 0 && p.Result != nil {
		return Folded("calc-own", labelOwnMeasure, true, h.Ul(g.Map(p.Mine, func(m CalcMine) g.Node {
			return h.Li(calcAction(domID("own", m.Job+"-"+m.ID), m.Page.Path(m.Job), m.JobTitle, m.Label,
				m.Fields))
		})))
	}
	if len(p.Own) == 0 || p.Result == nil {
		return nil
	}
	whose, how := &p.Result.Working[0], g.Node(nil)
	if p.Own[0].Push == "" {
		how = Soft("Count the clusters in a base you made with this recipe and type it under “A base you made” above. " +
			"Then a job can use your own push.")
	}
	return Folded("calc-own", labelOwnMeasure, p.Own[0].Push != "",
		g.Group{
			h.P(g.Textf("Uses a push of %s: %s.", whose.Value, whose.Formula)),
			how,
			h.Ul(g.Map(p.Own, func(x CalcOwn) g.Node { return calcOwnJob(p, &x) })),
		})
}

func calcOwnJob(p *CalcPage, o *CalcOwn) g.Node {
	var theirs g.Node
	if o.Theirs != "" && o.Theirs != o.Push {
		theirs = h.P(h.A(h.Href(calcAddress(p, o.Theirs)), g.Textf("Use the %s of %s here", o.Theirs, o.JobTitle)))
	}
	if o.Push == "" || o.Push == o.Theirs {
		used := "the usual push"
		if o.Theirs != "" {
			used = "your push of " + o.Theirs
		}
		return h.Li(h.P(g.Textf("%s uses %s. ", o.JobTitle, used),
			h.A(h.Href(address.Figures.Path(o.Job)), g.Text("Its numbers"))),
			theirs)
	}
	return h.Li(calcAction(domID("own", o.Job), address.Figures.Path(o.Job), o.JobTitle,
		"Use your push of "+o.Push,
		[][2]string{{"group", "Base"}, {FigureKey(o.Figure), o.Push}, {FigureNote(o.Figure), o.Note}}),
		theirs)
}

// calcAddress is this page again with another push.
func calcAddress(p *CalcPage, push string) string {
	query := form.Values{"push": {push}, CalcUnits: {string(p.Units)}}
	for i := range p.Calculator.Inputs {
		key := p.Calculator.Inputs[i].Key
		if text := p.State.Get(key); text != "" && key != "push" && key != "measured" {
			query[key] = []string{text}
		}
	}
	return address.Calculator.Path(p.Calculator.Name) + "?" + query.Query()
}

// calcAction is a button that posts some fields, with a line under its title.
func calcAction(id, to, title, line string, fields [][2]string) g.Node {
	return PostForm(ByCore, id, to, h.Class("deed"),
		g.Map(fields, func(x [2]string) g.Node { return Hidden(x[0], x[1]) }),
		Submit(Plain, RowText(title, Small(line))))
}
