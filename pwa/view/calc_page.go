package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
)

// CalcPage is what a calculator's page shows.
type CalcPage struct {
	Calculator calc.Calculator
	State      form.State // what was typed, by input key
	Result     *calc.Result
	Worked     bool      // the result is that of the example, nothing was typed yet
	Uses       []CalcUse // where the result can be put
	Own        []CalcOwn // figures of jobs that a measurement here could replace
	Jobs       []job.Choice
}

// CalcUse is a piece that the result can be put into.
type CalcUse struct {
	Job, JobTitle, Piece, PieceName string
	Label                           string      // what is put there: "length 3.2 m, recipe 2x11@10"
	Fields                          [][2]string // field and text, as they are typed
}

// CalcOwn is a job that can reckon with a visitor's own measurement instead of the table's figure.
type CalcOwn struct {
	Job, JobTitle, Figure string
	Theirs                string // the job's own figure; empty while the table's holds
	Push                  string // what was measured or typed here; empty if nothing was
	Note                  string // how it is known
}

// CalcUnits names the input that says in which units a visitor counts.
const CalcUnits = "units"

// Calc draws a calculator: what it asks, the result large, a drawing to scale, the working, sources, cautions.
func Calc(f Frame, p CalcPage) g.Node {
	c := p.Calculator
	address := "/calc/" + c.Name
	return g.Group{
		Heading(c.Group, c.Title),
		h.P(h.Class("lead"), g.Text(c.Purpose+".")),
		h.Div(h.Class("calc"),
			h.Form(h.ID("calc"), h.Class("edit"), h.Method("get"), h.Action(address), g.Attr("data-live", address), g.Attr("novalidate"),
				calcWrong(p.State), calcUnits(f), calcInputs(f, p), Foot("Work it out")),
			calcResult(f, p)),
		calcOwn(p),
		calcUses(p),
		calcSources(c),
	}
}

func calcWrong(state form.State) g.Node {
	if state.Alert == "" {
		return g.Group{}
	}
	return h.Div(h.ID("calc-wrong"), h.Class("wronglist"), h.Role("alert"), h.P(g.Text(state.Alert)))
}

// The parts of the form have names so that the field in use stays where it is when a message comes or goes before it.
func calcUnits(f Frame) g.Node {
	units := []job.Choice{{Value: string(measure.Imperial), Label: "Feet and inches"}, {Value: string(measure.Metric), Label: "Metres"}}
	return h.FieldSet(h.ID("calc-units"), h.Class("field"), h.Legend(h.Class("vh"), g.Text("Units")), h.Div(h.Class("segments"), g.Map(units, func(u job.Choice) g.Node {
		return h.Label(h.Input(h.Type("radio"), h.Name(CalcUnits), h.Value(u.Value), g.If(string(f.Units) == u.Value, h.Checked())), h.Span(g.Text(u.Label)))
	})))
}

func calcInputs(f Frame, p CalcPage) g.Node {
	var first, advanced []g.Node
	open := false
	for _, in := range p.Calculator.Inputs {
		drawn := calcInput(f, in, p.State)
		if in.Advanced {
			advanced = append(advanced, drawn)
			open = open || p.State.Get(in.Key) != "" || p.State.Errors[in.Key] != ""
			continue
		}
		first = append(first, drawn)
	}
	return g.Group{
		h.Div(h.ID("calc-inputs"), h.Class("panel part"), h.Div(h.Class("fields"), g.Group(first))),
		g.If(len(advanced) > 0, Folded("calc-more", "More to set", open, advanced...)),
	}
}

func calcInput(f Frame, in calc.Input, state form.State) g.Node {
	id, wrong, typed := domID("f", in.Key), state.Errors[in.Key], state.Get(in.Key)
	described := g.Group{}
	refs := []string{}
	if in.Help != "" {
		refs = append(refs, id+"-help")
	}
	if wrong != "" {
		refs = append(refs, id+"-error")
		described = append(described, h.Aria("invalid", "true"))
	}
	if len(refs) > 0 {
		described = append(described, h.Aria("describedby", strings.Join(refs, " ")))
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
			hint = in.Example
		}
		input = h.Input(h.ID(id), h.Name(in.Key), h.Type("text"), h.AutoComplete("off"), g.Attr("autocapitalize", "off"), g.Attr("spellcheck", "false"),
			g.If(in.Kind == calc.KindCount, g.Attr("inputmode", "numeric")), h.Placeholder(hint), h.Value(typed), described)
	}
	return h.Div(h.Class("field"), g.If(wrong != "", g.Attr("data-bad")),
		h.Label(h.For(id), g.Text(in.Label), g.If(in.Required, h.Span(h.Class("needed"), g.Text(" needed")))), input,
		g.If(in.Help != "", h.P(h.Class("help"), h.ID(id+"-help"), g.Text(in.Help))),
		g.If(wrong != "", h.P(h.Class("wrong"), h.ID(id+"-error"), Icon("care"), h.Span(g.Text(wrong)))))
}

func calcPicker(id string, in calc.Input, typed string, choices []string, described g.Node) g.Node {
	if typed == "" {
		typed = in.Default
	}
	known := false
	for _, c := range choices {
		known = known || c == typed
	}
	return h.Select(h.ID(id), h.Name(in.Key), described,
		g.If(!known, h.Option(h.Value(typed), h.Selected(), g.Text(map[bool]string{true: "Pick one", false: typed}[typed == ""]))),
		g.Map(choices, func(c string) g.Node {
			return h.Option(h.Value(c), g.If(c == typed, h.Selected()), g.Text(strings.ReplaceAll(c, "_", " ")))
		}))
}

func calcResult(f Frame, p CalcPage) g.Node {
	if p.Result == nil {
		return h.Section(h.ID("result"), h.Class("panel recount"), h.Role("status"), h.P(h.Class("soft"), g.Text("The result stands here as soon as the form can be reckoned.")))
	}
	r, c := *p.Result, p.Calculator
	story := g.Node(g.Group{})
	if p.Worked {
		story = h.P(h.Class("soft"), g.Text("An example, until you type: "+c.Example.Story+"."))
	}
	var large, small []g.Node
	for _, out := range c.Outputs {
		value, there := r.Outputs[out.Key]
		if !there {
			continue
		}
		text := out.Format(value, f.Units)
		if out.Main {
			large = append(large, Big(text, strings.ToLower(out.Label)))
			continue
		}
		small = append(small, h.Div(h.Dt(g.Text(out.Label)), h.Dd(h.B(g.Text(text)), h.Small(h.Class("soft"), g.Text(" "+out.Meaning)))))
	}
	return h.Section(h.ID("result"), h.Class("panel recount"), h.Role("status"), story, g.Group(large),
		calcPicture(r),
		g.Map(r.Notes, func(note string) g.Node { return h.P(h.Class("note"), g.Text(note)) }),
		g.If(len(small) > 0, h.Dl(h.Class("figures"), g.Group(small))),
		calcWorking(r.Working),
		calcCautions(c.Cautions))
}

func calcPicture(r calc.Result) g.Node {
	if picture := r.Picture(); picture != nil {
		return Draw(*picture)
	}
	return g.Group{}
}

func calcWorking(lines []calc.Line) g.Node {
	if len(lines) == 0 {
		return g.Group{}
	}
	return h.Details(h.ID("calc-working"), h.Class("working"), h.Summary(g.Text("Show the working")),
		h.Dl(g.Map(lines, func(l calc.Line) g.Node {
			return h.Div(h.Dt(g.Text(l.Label)), h.Dd(h.Span(h.Class("formula"), g.Text(l.Formula)), g.Text(" "), h.B(g.Text(l.Value))))
		})))
}

func calcCautions(texts []string) g.Node {
	if len(texts) == 0 {
		return g.Group{}
	}
	return h.Aside(h.Class("cautions"), h.Aria("label", "Take care"), g.Map(texts, func(text string) g.Node {
		return h.P(Icon("care"), h.Span(g.Text(text)))
	}))
}

func calcSources(c calc.Calculator) g.Node {
	if len(c.Sources) == 0 {
		return g.Group{}
	}
	return h.Details(h.ID("calc-sources"), h.Class("panel part folded"), h.Summary(g.Text("Where this comes from")),
		h.Ul(h.Class("sources"), g.Map(c.Sources, func(s calc.Source) g.Node {
			return h.Li(h.Span(h.Class("markof"), g.Text(s.Mark)), g.Text(" "+s.Text))
		})))
}

// calcUses puts the result into a piece: a post to the piece's own page, so that its checks hold.
func calcUses(p CalcPage) g.Node {
	if len(p.Uses) == 0 {
		return g.Group{}
	}
	return Folded("calc-uses", "Use it in a piece", false,
		h.Ul(g.Map(p.Uses, func(u CalcUse) g.Node {
			return h.Li(calcDeed(domID("use", u.Job+"-"+u.Piece), "/jobs/"+u.Job+"/pieces/"+u.Piece, append([][2]string{{FieldAct, "use"}}, u.Fields...), u.PieceName, u.JobTitle+": "+u.Label))
		})))
}

// calcOwn says whose push was used, and lets a job reckon with the visitor's own.
func calcOwn(p CalcPage) g.Node {
	if len(p.Own) == 0 || p.Result == nil {
		return g.Group{}
	}
	whose := p.Result.Working[0]
	return Folded("calc-own", "Use my own measurement", p.Own[0].Push != "",
		h.P(g.Text("Reckoned with a push of "+whose.Value+": "+whose.Formula+".")),
		g.If(p.Own[0].Push == "", h.P(h.Class("soft"), g.Text("Count the clusters in a base you have made and type it under “A base you made” above. Then a job can reckon with your hands."))),
		h.Ul(g.Map(p.Own, func(o CalcOwn) g.Node { return calcOwnJob(p, o) })))
}

func calcOwnJob(p CalcPage, o CalcOwn) g.Node {
	theirs := g.Node(g.Group{})
	if o.Theirs != "" && o.Theirs != o.Push {
		theirs = h.P(h.A(h.Href(calcAddress(p, o.Theirs)), g.Text("Reckon here with the "+o.Theirs+" of "+o.JobTitle)))
	}
	if o.Push == "" || o.Push == o.Theirs {
		used := "the usual push"
		if o.Theirs != "" {
			used = "your push of " + o.Theirs
		}
		return h.Li(h.P(g.Text(o.JobTitle+" reckons with "+used+". "), h.A(h.Href("/jobs/"+o.Job+"/figures"), g.Text("Its figures"))), theirs)
	}
	fields := [][2]string{{"group", "Base"}, {FigureKey(o.Figure), o.Push}, {FigureNote(o.Figure), o.Note}}
	return h.Li(calcDeed(domID("own", o.Job), "/jobs/"+o.Job+"/figures", fields, o.JobTitle, "Reckon all its counts with your push of "+o.Push), theirs)
}

// calcAddress is this page again with another push.
func calcAddress(p CalcPage, push string) string {
	query := form.Values{"push": {push}}
	for _, in := range p.Calculator.Inputs {
		if text := p.State.Get(in.Key); text != "" && in.Key != "push" && in.Key != "measured" {
			query[in.Key] = []string{text}
		}
	}
	return "/calc/" + p.Calculator.Name + "?" + query.Query()
}

// calcDeed is a button that posts some fields, with a line under its title.
func calcDeed(id, address string, fields [][2]string, title, line string) g.Node {
	return h.Form(h.ID(id), h.Class("deed"), h.Method("post"), h.Action(address), g.Attr("data-core"),
		g.Map(fields, func(field [2]string) g.Node { return Hidden(field[0], field[1]) }),
		h.Button(h.Type("submit"), h.Span(h.Class("rowtext"), h.Span(h.Class("rowtitle"), g.Text(title)), h.Span(h.Class("soft"), g.Text(line)))))
}
