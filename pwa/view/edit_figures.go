package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
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
	return g.Group{
		Heading("", labelNumbers),
		Lead("Type what you measured. Empty a field to use the table again."),
		figuresWrong(state),
		g.If(last > 0,
			ActForm("last-figures", f.at(address.Figures), "last", "", "",
				g.Text("Use "+Many(last, "number")+" from my last job"))),
		g.If(len(rows) == 0,
			Empty("No numbers yet", "Add a piece to see the numbers behind its counts.", "", nil)),
		g.Map(groups, func(group string) g.Node {
			return figureGroup(f, group, by[group], state, group == open || len(state.Errors) > 0)
		}),
	}
}

func figuresWrong(state form.State) g.Node {
	if state.OK() {
		return nil
	}
	return wrongBox(wrongLinks("Not saved. What you typed is still here.", state, state.Wrong(), ""))
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
		title += " (" + strconv.Itoa(own) + " of mine)"
	}
	return Folded(domID("group", group), title, open,
		EditForm(domID("figures", group), f.at(address.Figures), "", Hidden("group", group),
			g.Map(rows, func(figure figures.Figure) g.Node { return figureRow(figure, state, f.Units) }),
			Foot(labelSave)))
}

func figureRow(figure figures.Figure, state form.State, units measure.System) g.Node {
	key, note := FigureKey(figure.Key), FigureNote(figure.Key)
	table := FigureText(figure, figure.Default, units)
	id := domID("f", key)
	wrong, noteWrong := state.Errors[key], state.Errors[note]
	return FieldBox(id, figure.Label, wrong,
		h.Div(h.Class("figurevalue"),
			h.Input(h.ID(id), h.Name(key), h.Type("text"), g.Attr("inputmode", "decimal"), h.AutoComplete("off"),
				h.Value(state.Get(key)), h.Placeholder(table), h.Aria("describedby", id+"-help"),
				g.If(wrong != "", h.Aria("invalid", "true"))),
			g.If(FigureUnit(figure, units) != "", h.Span(g.Text(figure.Unit))),
			g.If(figure.Overridden,
				Submit(Quiet, h.Name("reset"), h.Value(figure.Key), g.Text("Back to "+table)))),
		g.If(wrong == "", bad(noteWrong)),
		Hidden(form.Was(key), state.Get(form.Was(key))),
		Hidden(form.Was(note), state.Get(form.Was(note))),
		h.P(h.Class("help"), h.ID(id+"-help"),
			g.Textf("Table: %s. Allowed: %s. ", table, FigureRange(figure, units)),
			SourceMark(figure.Source)),
		g.If(figure.Overridden,
			g.Group{
				h.Label(h.Class("noted"),
					h.Span(g.Text("How you know")),
					h.Input(h.ID(domID("f", note)), h.Name(note), h.Type("text"), h.AutoComplete("off"),
						h.Value(state.Get(note)), h.MaxLength(strconv.Itoa(job.MostNote)),
						h.Placeholder("Measured when, on what"), invalid(domID("f", note), noteWrong))),
				wrongLine(domID("f", note), noteWrong),
			}))
}

// FigureField returns the field that one's own value of a figure is typed into: lengths in the job's units.
func FigureField(f figures.Figure) *job.Field {
	kind := job.Number
	if f.Unit == "mm" {
		kind = job.Length
	}
	return &job.Field{Name: "value", Label: f.Label, Kind: kind, Min: f.Min, Max: f.Max}
}

// feetUnits write and read the figures that people who use feet see in pounds or miles per hour.
var feetUnits = map[string]struct {
	write func(float64, measure.System) string
	read  func(string, measure.System) (float64, error)
}{
	"N": {measure.FormatForce, func(text string, _ measure.System) (float64, error) {
		if _, err := measure.ParseNumber(text); err == nil {
			text += " lb"
		}
		return measure.ParseForceN(text)
	}},
	"kg": {func(kg float64, units measure.System) string { return measure.FormatMass(1000*kg, units) },
		func(text string, units measure.System) (float64, error) {
			grams, err := measure.ParseMassG(text, units)
			return grams / 1000, err
		}},
	"m/s": {measure.FormatSpeed, measure.ParseSpeedMPS},
}

// FigureUnit returns the unit to show beside a figure's value; "" if the value's text has its unit.
func FigureUnit(f figures.Figure, units measure.System) string {
	if _, feet := feetUnits[f.Unit]; f.Unit == "mm" || feet && units == measure.Imperial {
		return ""
	}
	return f.Unit
}

// FigureText writes a value of a figure as a person would. [ReadFigure] reads it.
func FigureText(f figures.Figure, value float64, units measure.System) string {
	if unit, feet := feetUnits[f.Unit]; feet && units == measure.Imperial {
		return unit.write(value, units)
	}
	return form.Text(FigureField(f), job.Put("", "", value).Value, units)
}

// FigureRange writes the range of a figure's values as [FigureText] does.
func FigureRange(f figures.Figure, units measure.System) string {
	if unit, feet := feetUnits[f.Unit]; feet && units == measure.Imperial {
		return form.Limits(FigureField(f), units, unit.write, unit.read)
	}
	return form.Range(FigureField(f), units)
}

// ReadFigure reads a typed value of a figure.
func ReadFigure(f figures.Figure, typed string, units measure.System) (float64, error) {
	if unit, feet := feetUnits[f.Unit]; feet && units == measure.Imperial {
		return unit.read(typed, units)
	}
	if f.Unit == "mm" {
		return measure.ParseLengthMM(typed, units)
	}
	return measure.ParseNumber(strings.TrimSpace(strings.TrimSuffix(typed, f.Unit)))
}
