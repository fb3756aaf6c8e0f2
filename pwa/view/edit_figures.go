package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
)

// FigureKey names the input of a table figure's own value.
func FigureKey(key string) string { return "value." + key }

// FigureNote names the input that says how the own value is known.
func FigureNote(key string) string { return "note." + key }

// EditFigures draws the trade's tables as this job uses them, by group, each figure with its mark, its source and room
// for one's own. Open is the group that stands open.
func EditFigures(f Frame, figures []plan.Figure, state form.State, open string) g.Node {
	var groups []string
	by := map[string][]plan.Figure{}
	for _, figure := range figures {
		if _, there := by[figure.Group]; !there {
			groups = append(groups, figure.Group)
		}
		by[figure.Group] = append(by[figure.Group], figure)
	}
	return g.Group{
		Heading("", "Figures"),
		txt(`p class="lead"`, "What the counts and the cards are worked out from. Your own measurements are better than any table: type them over, and empty a field to go back to the table."),
		figuresWrong(state),
		g.If(len(figures) == 0, Empty("No figures yet", "As soon as there is a piece, the figures that count it stand here.", "", nil)),
		g.Map(groups, func(group string) g.Node {
			return figureGroup(f, group, by[group], state, group == open || len(state.Errors) > 0)
		}),
	}
}

func figuresWrong(state form.State) g.Node {
	if state.OK() {
		return g.Group{}
	}
	return el(`div class="wronglist" role="alert"`, el("p", txt("b", "Nothing was saved; all you typed is still here.")),
		g.If(state.Alert != "", txt("p", state.Alert)),
		el("ul", g.Map(state.Wrong(), func(key string) g.Node {
			return el("li", el("a", h.Href("#"+domID("f", key)), g.Text(state.Errors[key])))
		})))
}

func figureGroup(f Frame, group string, figures []plan.Figure, state form.State, open bool) g.Node {
	own := 0
	for _, figure := range figures {
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
			g.Map(figures, func(figure plan.Figure) g.Node { return figureRow(figure, state, f.Units) }),
			Foot("Save these")))
}

func figureRow(figure plan.Figure, state form.State, units measure.System) g.Node {
	key, note := FigureKey(figure.Key), FigureNote(figure.Key)
	table := FigureText(figure, figure.Default, units)
	id := domID("f", key)
	wrong := state.Errors[key]
	return el(`div class="field figure"`, g.If(wrong != "", g.Attr("data-bad")),
		el("label", h.For(id), g.Text(figure.Label)),
		el(`div class="figurevalue"`,
			el("input", h.ID(id), h.Name(key), h.Type("text"), g.Attr("inputmode", "decimal"), h.AutoComplete("off"), h.Value(state.Get(key)),
				h.Placeholder(table), h.Aria("describedby", id+"-help"), g.If(wrong != "", h.Aria("invalid", "true"))),
			g.If(figure.Unit != "mm", txt("span", figure.Unit)),
			g.If(figure.Overridden, el(`button type="submit" name="reset"`, h.Value(figure.Key), h.Class("quiet"), g.Text("Use the table's "+table)))),
		Hidden(form.Was(key), state.Get(form.Was(key))), Hidden(form.Was(note), state.Get(form.Was(note))),
		el(`p class="help"`, h.ID(id+"-help"), g.Text("Table: "+table+". Allowed: "+form.Range(FigureField(figure), units)+". "), SourceMark(figure.Source)),
		g.If(figure.Overridden, el(`label class="noted"`, txt("span", "How you know"),
			el("input", h.Name(note), h.Type("text"), h.AutoComplete("off"), h.Value(state.Get(note)), h.MaxLength("400"), h.Placeholder("Measured when, on what"))),
		),
		g.If(wrong != "", el(`p class="wrong"`, h.ID(id+"-error"), Icon("care"), txt("span", wrong))))
}

// FigureField gives the field that one's own value of a figure is typed into: lengths in the job's units.
func FigureField(f plan.Figure) job.Field {
	kind := job.Number
	if f.Unit == "mm" {
		kind = job.Length
	}
	return job.Field{Name: "value", Label: f.Label, Kind: kind, Min: f.Min, Max: f.Max}
}

// FigureText writes a value of a figure as a person would, without its unit unless it is a length.
func FigureText(f plan.Figure, value float64, units measure.System) string {
	return form.Text(FigureField(f), job.Put("", "", value).Value, units)
}
