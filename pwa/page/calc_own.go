package page

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

// ownFigure is a calculator's input that can stand in for a figure of the tables, so many to one.
type ownFigure struct {
	calculator, input, figure string
	times                     float64
}

// ownFigures are the inputs that a builder measures, but for the push. A figure that ends in a slash goes on with the
// balloon's size.
var ownFigures = [...]ownFigure{
	{"spares", "fail", "breakage/practised", 1}, {"spares", "fail", "breakage/beginner", 1},
	{"size", "latex_g", "rubber/", 1}, {"lift", "latex_g", "rubber/", 1},
	{"lift", "cylinder_l", "supply/cylinder-l", 1}, {"lift", "cylinder_bar", "supply/cylinder-bar", 1},
	{"car", "packing", "car/packing", 0.01},
	{"dip", "visible", "bar/visible", 1}, {"dip", "useless", "bar/useless", 1},
}

// ownFields gives what was measured, as fields of the page of figures.
func (a *ask) ownFields(p *view.CalcPage, raw map[string]string) []view.CalcMine {
	var mine []view.CalcMine
	for _, own := range ownFigures {
		typed := strings.TrimSpace(raw[own.input])
		if own.calculator != p.Calculator.Name || typed == "" {
			continue
		}
		key := own.figure
		if strings.HasSuffix(key, "/") {
			key += strings.TrimRight(raw["size"], " in\"")
		}
		value, err := measure.ParseNumber(strings.TrimRight(typed, " %gLbar")) // all are asked in one unit; in another nothing is offered
		for _, f := range plan.Figures() {
			if value *= own.times; f.Key == key && err == nil && value >= f.Min && value <= f.Max {
				text := measure.FormatNumber(value, 4)
				mine = append(mine, view.CalcMine{ID: key, Address: "figures", Label: f.Label + ": " + text + " " + f.Unit, Fields: [][2]string{
					{"group", f.Group}, {view.FigureKey(key), text}, {view.FigureNote(key), "Measured: " + typed}}})
			}
			value /= own.times
		}
	}
	return mine
}

// ownDeeds are the ways in which a job can reckon with what was measured: figures, and things of its kit.
func ownDeeds(j *job.Job, p *view.CalcPage, figures []view.CalcMine) []view.CalcMine {
	all := append([]view.CalcMine(nil), figures...)
	kind, fields, label := ownKit(p)
	found := false
	put := func(id, name, act, prefix string) {
		d := view.CalcMine{ID: id, Address: "kit", Label: name + ": " + label, Fields: [][2]string{{view.FieldAct, act}, {"id", id}, {prefix + "name", name}}}
		for _, f := range fields {
			d.Fields = append(d.Fields, [2]string{prefix + f[0], f[1]})
		}
		all = append(all, d)
	}
	for _, k := range j.Kit {
		if kind != "" && k.Kind == kind {
			found = true
			put(k.ID, k.Name, "save", k.ID+".")
		}
	}
	if kind != "" && !found {
		fields = append(fields, [2]string{"kind", kind})
		put("new", "A new "+kind, "add", "new.")
	}
	if p.Calculator.Name == "bags" {
		all = append(all, ownBags(j, p)...)
	}
	for i := range all {
		all[i].Job, all[i].JobTitle = j.ID, j.Brief.Title
	}
	return all
}

// ownBags offers the bags to each size that the job has balloons of.
func ownBags(j *job.Job, p *view.CalcPage) []view.CalcMine {
	var mine []view.CalcMine
	for _, size := range job.Sizes {
		had := false
		for _, c := range j.Colours {
			had = had || c.Has(size)
		}
		if had {
			id := "latex/" + strconv.Itoa(size)
			mine = append(mine, view.CalcMine{ID: id, Address: "shop", Label: "What " + soldAs(nil, id) + " balloons are sold in", Fields: [][2]string{{view.BagsInput(id), p.State.Get("bags")}}})
		}
	}
	return mine
}

// ownKit is what was measured of a thing of the kit: a bar on the bench, or a car.
func ownKit(p *view.CalcPage) (kind string, fields [][2]string, label string) {
	typed := func(key string) bool { return strings.TrimSpace(p.State.Get(key)) != "" }
	switch {
	case p.Calculator.Name == "dip" && typed("test_weight") && typed("test_dip"):
		given := func(key, text string) string {
			for _, used := range p.Result.Used {
				if used.Key == key {
					return used.Text
				}
			}
			return text
		}
		span := given("test_span", given("span", ""))
		units := p.Units
		mm, _ := measure.ParseLengthMM(span, units) // all were read by the calculator
		grams, _ := measure.ParseMassG(given("test_weight", ""), units)
		dip, _ := measure.ParseThinLengthMM(given("test_dip", ""), units)
		stays, _ := measure.ParseThinLengthMM(given("test_stays", "0"), units)
		return "frame", [][2]string{{"tested_mm", lengthText(mm)}, {"test_weight_g", measure.FormatNumber(grams, 3) + " g"},
			{"test_dip_mm", lengthText(dip)}, {"test_stays_mm", lengthText(stays)}}, "its bench test at " + measure.FormatLength(mm, units)
	case p.Calculator.Name == "car":
		litres, longest := measure.FormatNumber(p.Result.Number("car_l"), 0), p.Result.Number("longest_mm")
		return "car", [][2]string{{"litres", litres}, {"longest_mm", lengthText(longest)}}, litres + " litres, longest " + measure.FormatLength(longest, p.Units)
	}
	return "", nil, ""
}
