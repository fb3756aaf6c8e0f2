package view

import (
	"strings"

	g "maragu.dev/gomponents"

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
	Worked     bool         // the result is that of the example, nothing was typed yet
	Uses       []CalcUse    // where the result can be put
	Own        []CalcOwn    // pushes of jobs that a measurement here could replace
	Mine       []CalcMine   // other figures and kit of jobs that it could
	Theirs     []CalcTheirs // the visitor's own figures that it was reckoned with, where nothing was typed
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

// CalcOwn is a job that can reckon with a visitor's own measurement instead of the table's figure.
type CalcOwn struct {
	Job, JobTitle, Figure string
	Theirs                string // the job's own figure; empty while the table's holds
	Push                  string // what was measured or typed here; empty if nothing was
	Note                  string // how it is known
}

// CalcMine is something of a job that a visitor's own measurement can be written into.
type CalcMine struct {
	Job, JobTitle, ID string
	Address           string // of the page that takes it, within the job
	Label             string
	Fields            [][2]string
}

// CalcUnits names the input that says in which units a visitor counts.
const CalcUnits = "units"

// Calc draws a calculator: what it asks, the result large, a drawing to scale, the working, sources, cautions.
func Calc(f Frame, p CalcPage) g.Node {
	c := &p.Calculator
	address := "/calc/" + c.Name
	return html(`{}<p class="lead">$.</p>
		<div class="calc"><form id="calc" class="edit" method="get" action="$" data-live="$" novalidate>{}{}{}{}</form>{}</div>
		{}{}{}`, texts{c.Purpose, address, address}, Heading(c.Group, c.Title),
		calcWrong(p.State.Alert), calcUnits(f), calcInputs(f, &p), Foot("Work it out"), calcResult(f, &p),
		these(calcKit(p.Kit), calcOwn(&p)), calcUses(p.Uses), calcSources(c.Sources))
}

func calcWrong(alert string) g.Node {
	if alert == "" {
		return nothing
	}
	return html(`<div id="calc-wrong" class="wronglist" role="alert"><p>$</p></div>`, texts{alert})
}

// The parts of the form have names so that the field in use stays where it is when a message comes or goes before it.
func calcUnits(f Frame) g.Node {
	return html(
		`<fieldset id="calc-units" class="field"><legend class="vh">Units</legend><div class="segments">{}{}</div></fieldset>`,
		nil, calcUnit(f, measure.Imperial, "Feet and inches"), calcUnit(f, measure.Metric, "Metres"),
	)
}

func calcUnit(f Frame, system measure.System, label string) g.Node {
	return html(`<label><input type="radio" name="$" value="$"{}><span>$</span></label>`,
		texts{CalcUnits, string(system), label}, set(f.Units == system, "checked"))
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
	more := nothing
	if len(advanced) > 0 {
		more = Folded("calc-more", "More to set", open, advanced...)
	}
	return html(`<div id="calc-inputs" class="panel part"><div class="fields">{}</div></div>{}`, nil, g.Group(first), more)
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
		described = append(described, attributes(`aria-invalid="true"`))
	}
	if refs != "" {
		described = append(described, attr("aria-describedby", strings.TrimSpace(refs)))
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
		input = html(
			`<input id="$" name="$" type="text" autocomplete="off" autocapitalize="off" spellcheck="false"{} placeholder="$" value="$"{}>`,
			texts{id, in.Key, hint, typed}, set(in.Kind == calc.KindCount, `inputmode="numeric"`), described,
		)
	}
	needed, help := nothing, nothing
	if in.Required {
		needed = fixed(`<span class="needed"> needed</span>`)
	}
	if in.Help != "" {
		help = html(`<p class="help" id="$-help">$</p>`, texts{id, in.Help})
	}
	return html(`<div class="field"{}><label for="$">${}</label>{}{}{}</div>`, texts{id, in.Label}, bad(wrong), needed,
		input, help, wrongLine(id, wrong))
}

func calcPicker(id string, in *calc.Input, typed string, choices []string, described g.Node) g.Node {
	if typed == "" {
		typed = in.Default
	}
	strange := html(`<option value="$" selected>$</option>`, texts{typed, pick(typed == "", "Pick one", typed)})
	for _, c := range choices {
		if c == typed {
			strange = nothing
		}
	}
	return html(`<select id="$" name="$"{}>{}{}</select>`, texts{id, in.Key}, described, strange,
		eachText(choices, func(c string) g.Node {
			return html(`<option value="$"{}>$</option>`, texts{c, strings.ReplaceAll(c, "_", " ")}, set(c == typed, "selected"))
		}))
}

func calcResult(f Frame, p *CalcPage) g.Node {
	if p.Result == nil {
		return fixed(
			`<section id="result" class="panel recount" role="status"><p class="soft">The result stands here as soon as the form can be reckoned.</p></section>`,
		)
	}
	r, c := p.Result, &p.Calculator
	story, figures := nothing, nothing
	if p.Worked {
		story = html(`<p class="soft">An example, until you type: $.</p>`, texts{c.Example.Story})
	}
	var large, small []g.Node
	for i := range c.Outputs {
		out := &c.Outputs[i]
		value, there := r.Outputs[out.Key]
		if !there {
			continue
		}
		text := out.Format(value, f.Units)
		if out.Main {
			large = append(large, Big(text, strings.ToLower(out.Label)))
			continue
		}
		small = append(small,
			html(`<div><dt>$</dt><dd><b>$</b><small class="soft"> $</small></dd></div>`, texts{out.Label, text, out.Meaning}))
	}
	if len(small) > 0 {
		figures = el(`dl class="figures"`, small...)
	}
	return html(`<section id="result" class="panel recount" role="status">{}{}{}{}{}{}{}{}</section>`, nil, story,
		calcTheirs(p), g.Group(large), calcPicture(r),
		eachText(r.Notes, func(note string) g.Node { return txt(`p class="note"`, note) }), figures, calcWorking(r.Working),
		calcCautions(c.Cautions))
}

// calcTheirs says which of the visitor's own figures were used.
func calcTheirs(p *CalcPage) g.Node {
	if len(p.Theirs) == 0 {
		return nothing
	}
	return html(
		`<p class="soft" id="calc-theirs"><span class="markof">measured by you</span> {}. <a href="/jobs/$/figures">Figures of $</a>. Type another to reckon with that.</p>`,
		texts{p.TheirJob, p.TheirTitle},
		each(len(p.Theirs), func(i int) g.Node {
			t := &p.Theirs[i]
			return g.Text(pick(i > 0, "; ", "") + t.Label + ": " + t.Text + pick(t.Note != "", " ("+t.Note+")", ""))
		}),
	)
}

func calcPicture(r *calc.Result) g.Node {
	if picture := r.Picture(); picture != nil {
		return Draw(*picture)
	}
	return nothing
}

func calcWorking(lines []calc.Line) g.Node {
	if len(lines) == 0 {
		return nothing
	}
	return html(`<details id="calc-working" class="working"><summary>Show the working</summary><dl>{}</dl></details>`, nil,
		each(len(lines), func(i int) g.Node {
			return html(`<div><dt>$</dt><dd><span class="formula">$</span> <b>$</b></dd></div>`,
				texts{lines[i].Label, lines[i].Formula, lines[i].Value})
		}))
}

func calcCautions(list []string) g.Node {
	if len(list) == 0 {
		return nothing
	}
	return el(`aside class="cautions" aria-label="Take care"`, eachText(list, func(text string) g.Node {
		return html(`<p>{care}<span>$</span></p>`, texts{text})
	}))
}

func calcSources(sources []calc.Source) g.Node {
	if len(sources) == 0 {
		return nothing
	}
	return html(
		`<details id="calc-sources" class="panel part folded"><summary>Where this comes from</summary><ul class="sources">{}</ul></details>`,
		nil,
		each(len(sources), func(i int) g.Node {
			return html(`<li><span class="markof">$</span> $</li>`, texts{sources[i].Mark, sources[i].Text})
		}),
	)
}

// calcUses puts the result into a piece: a post to the piece's own page, so that its checks hold.
func calcUses(uses []CalcUse) g.Node {
	if len(uses) == 0 {
		return nothing
	}
	return Folded("calc-uses", "Use it in a piece", false, el("ul", each(len(uses), func(i int) g.Node {
		u := &uses[i]
		return el(
			"li",
			calcDeed(domID("use", u.Job+"-"+u.Piece), "/jobs/"+u.Job+"/pieces/"+u.Piece, u.PieceName, u.JobTitle+": "+u.Label,
				append([][2]string{{FieldAct, "use"}}, u.Fields...)),
		)
	})))
}

// calcKit offers to reckon with what stands in the kit.
func calcKit(kit [][2]string) g.Node {
	if len(kit) == 0 {
		return nothing
	}
	return Folded("calc-kit", "Reckon with what I measured before", false, el("ul", each(len(kit), func(i int) g.Node {
		return html(`<li><a class="row" href="$">$</a></li>`, texts{kit[i][0], kit[i][1]})
	})))
}

// calcOwn says whose push was used, and lets a job reckon with the visitor's own.
func calcOwn(p *CalcPage) g.Node {
	if len(p.Mine) > 0 && p.Result != nil {
		return Folded("calc-own", "Use my own measurement", true, el("ul", each(len(p.Mine), func(i int) g.Node {
			m := &p.Mine[i]
			return el("li", calcDeed(domID("own", m.Job+"-"+m.ID), "/jobs/"+m.Job+"/"+m.Address, m.JobTitle, m.Label, m.Fields))
		})))
	}
	if len(p.Own) == 0 || p.Result == nil {
		return nothing
	}
	whose, how := &p.Result.Working[0], nothing
	if p.Own[0].Push == "" {
		how = fixed(
			`<p class="soft">Count the clusters in a base of this same recipe that you have made and type it under “A base you made” above. Then a job can reckon with your hands.</p>`,
		)
	}
	return Folded("calc-own", "Use my own measurement", p.Own[0].Push != "",
		html(`<p>Reckoned with a push of $: $.</p>{}<ul>{}</ul>`, texts{whose.Value, whose.Formula}, how,
			each(len(p.Own), func(i int) g.Node { return calcOwnJob(p, &p.Own[i]) })))
}

func calcOwnJob(p *CalcPage, o *CalcOwn) g.Node {
	theirs := nothing
	if o.Theirs != "" && o.Theirs != o.Push {
		theirs = html(`<p><a href="$">Reckon here with the $ of $</a></p>`,
			texts{calcAddress(p, o.Theirs), o.Theirs, o.JobTitle})
	}
	if o.Push == "" || o.Push == o.Theirs {
		used := "the usual push"
		if o.Theirs != "" {
			used = "your push of " + o.Theirs
		}
		return html(`<li><p>$ reckons with $. <a href="/jobs/$/figures">Its figures</a></p>{}</li>`,
			texts{o.JobTitle, used, o.Job}, theirs)
	}
	return el(
		"li",
		calcDeed(domID("own", o.Job), "/jobs/"+o.Job+"/figures", o.JobTitle,
			"Reckon all its counts with your push of "+o.Push,
			[][2]string{{"group", "Base"}, {FigureKey(o.Figure), o.Push}, {FigureNote(o.Figure), o.Note}}),
		theirs,
	)
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
	return "/calc/" + p.Calculator.Name + "?" + query.Query()
}

// calcDeed is a button that posts some fields, with a line under its title.
func calcDeed(id, address, title, line string, fields [][2]string) g.Node {
	return html(`<form id="$" class="deed" method="post" action="$" data-core>{}
		<button type="submit"><span class="rowtext"><span class="rowtitle">$</span><span class="soft">$</span></span></button></form>`,
		texts{id, address, title, line}, each(len(fields), func(i int) g.Node { return Hidden(fields[i][0], fields[i][1]) }))
}
