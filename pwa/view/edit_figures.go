package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
)

// FigureKey names the input of a table figure's own value.
func FigureKey(key string) string { return "value." + key }

// FigureNote names the input that says how the own value is known.
func FigureNote(key string) string { return "note." + key }

// EditFigures draws the trade's tables as this job uses them, by group, each figure with its mark, its source and room
// for one's own. Open is the group that stands open; last is how many figures the last job has that this one does not.
func EditFigures(f Frame, rows []figures.Figure, state form.State, open string, last int) g.Node {
	var groups []string
	by := map[string][]figures.Figure{}
	for _, figure := range rows {
		if _, there := by[figure.Group]; !there {
			groups = append(groups, figure.Group)
		}
		by[figure.Group] = append(by[figure.Group], figure)
	}
	return these(
		Heading("", "Figures"),
		txt(
			`p class="lead"`,
			"What the counts and the cards are worked out from. Your own measurements are better than any table: type them over, and empty a field to go back to the table.",
		),
		figuresWrong(state),
		g.If(
			last > 0,
			ActForm("last-figures", f.at("figures"), "last", "", "",
				g.Text("Take over "+Many(last, "figure")+" of my last job")),
		),
		g.If(len(rows) == 0,
			Empty("No figures yet", "As soon as there is a piece, the figures that count it stand here.", "", nil)),
		eachText(groups, func(group string) g.Node {
			return figureGroup(f, group, by[group], state, group == open || len(state.Errors) > 0)
		}),
	)
}

func figuresWrong(state form.State) g.Node {
	if state.OK() {
		return nothing
	}
	return html(`<div class="wronglist" role="alert"><p><b>Nothing was saved; all you typed is still here.</b></p>
		{}
		<ul>{}</ul></div>`, nil,
		g.If(state.Alert != "", txt("p", state.Alert)),
		eachText(state.Wrong(), func(key string) g.Node {
			return html(`<li><a href="#$">$</a></li>`, texts{domID("f", key), state.Errors[key]})
		}))
}

func figureGroup(f Frame, group string, rows []figures.Figure, state form.State, open bool) g.Node {
	own := 0
	for _, figure := range rows {
		if figure.Overridden {
			own++
		}
	}
	title := group
	if own > 0 {
		title += " (" + strconv.Itoa(own) + " of your own)"
	}
	return Folded(domID("group", group), title, open,
		EditForm(domID("figures", group), f.at("figures"), "", Hidden("group", group),
			each(len(rows), func(i int) g.Node { return figureRow(rows[i], state, f.Units) }),
			Foot("Save these")))
}

func figureRow(figure figures.Figure, state form.State, units measure.System) g.Node {
	key, note := FigureKey(figure.Key), FigureNote(figure.Key)
	table := FigureText(figure, figure.Default, units)
	id := domID("f", key)
	wrong, noteWrong := state.Errors[key], state.Errors[note]
	return html(
		`<div class="field figure"{}>
		<label for="$">$</label>
		<div class="figurevalue">
			<input id="$" name="$" type="text" inputmode="decimal" autocomplete="off" value="$" placeholder="$" aria-describedby="$-help"{}>
			{}
			{}</div>
		{}{}
		<p class="help" id="$-help">Table: $. Allowed: $. {}</p>
		{}
		{}</div>`,
		texts{id, figure.Label, id, key, state.Get(key), table, id, id, table, form.Range(FigureField(figure), units)},
		bad(wrong+noteWrong),
		g.If(wrong != "", h.Aria("invalid", "true")),
		g.If(figure.Unit != "mm", txt("span", figure.Unit)),
		g.If(
			figure.Overridden,
			html(`<button type="submit" name="reset" value="$" class="quiet">$</button>`,
				texts{figure.Key, "Use the table's " + table}),
		),
		Hidden(form.Was(key), state.Get(form.Was(key))),
		Hidden(form.Was(note), state.Get(form.Was(note))),
		SourceMark(figure.Source),
		g.If(figure.Overridden, html(
			`<label class="noted"><span>How you know</span>
			<input id="$" name="$" type="text" autocomplete="off" value="$" maxlength="$" placeholder="Measured when, on what"{}></label>{}`,
			texts{domID("f", note), note, state.Get(note), strconv.Itoa(job.MostNote)},
			invalid(domID("f", note), noteWrong),
			wrongLine(domID("f", note), noteWrong),
		),
		),
		wrongLine(id, wrong),
	)
}

// FigureField gives the field that one's own value of a figure is typed into: lengths in the job's units.
func FigureField(f figures.Figure) *job.Field {
	kind := job.Number
	if f.Unit == "mm" {
		kind = job.Length
	}
	return &job.Field{Name: "value", Label: f.Label, Kind: kind, Min: f.Min, Max: f.Max}
}

// FigureText writes a value of a figure as a person would, without its unit unless it is a length.
func FigureText(f figures.Figure, value float64, units measure.System) string {
	return form.Text(FigureField(f), job.Put("", "", value).Value, units)
}
