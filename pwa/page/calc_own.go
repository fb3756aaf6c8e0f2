package page

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// figureInput is a calculator's input that corresponds to a figure of the tables: input = figure / times.
type figureInput struct {
	calculator, input, figure string
	times                     float64
}

// figureInputs are the inputs that a builder measures, except the push. After a slash comes the balloon's size.
var figureInputs = [...]figureInput{
	{"spares", "fail", "breakage/practised", 1}, {"spares", "fail", "breakage/beginner", 1},
	{"size", "latex_g", "rubber/", 1}, {"lift", "latex_g", "rubber/", 1},
	{"lift", "cylinder_l", "supply/cylinder-l", 1}, {"lift", "cylinder_bar", "supply/cylinder-bar", 1},
	{"car", "packing", "car/packing", 0.01},
	{"dip", "visible", "bar/visible", 1}, {"dip", "useless", "bar/useless", 1},
	{"lift", "gel", "float/own", 1}, {"lift", "gas", "gas/own", 1}, {"heat", "growth", "heat/own", 1},
}

// key returns the key of the figure, with the balloon's size if there is a figure for each size.
func (o *figureInput) key(raw map[string]string) string {
	if strings.HasSuffix(o.figure, "/") {
		return o.figure + strings.TrimRight(raw["size"], " in\"")
	}
	return o.figure
}

// ownDefaults fills empty inputs with the visitor's own figures from the job in which one was set last, and lists them
// on the page. It skips inputs that a typed measurement replaces.
func (r *request) ownDefaults(p *view.CalcPage, raw map[string]string) {
	from := r.lastWith("override", "value")
	put := func(input, key string, times float64) {
		measured := measuredOf(input, func(key string) string { return raw[key] })
		own, there := from.Overrides[key]
		in, known := p.Calculator.Input(input)
		if !there || own.Value == nil || !known || strings.TrimSpace(raw[input]) != "" ||
			measured != "" {
			return
		}
		if value := *own.Value / times; value < in.Min || value > in.Max {
			return // a figure may have a wider range than the calculator
		}
		raw[input] = measure.FormatNumber(*own.Value/times, 4)
		p.Theirs = append(p.Theirs, view.CalcTheirs{Label: in.Label, Text: raw[input], Note: own.Note})
	}
	for i := range figureInputs {
		if o := &figureInputs[i]; o.calculator == p.Calculator.Name {
			put(o.input, o.key(raw), o.times)
		}
	}
	put("push", pushFigure, 1)
	p.TheirJob, p.TheirTitle = from.ID, from.Brief.Title
}

// counted returns an input as computed from a measurement typed into the calculator, with a note: how long a balloon
// floated, or how large it became.
func counted(p *view.CalcPage, input, typed string) (text, note string) {
	step := calc.StepFloats
	switch input {
	case "gel":
	case "growth":
		step = calc.StepGrowth
	case "gas":
		step = calc.StepGas
	default:
		return typed, typed
	}
	if measured := measuredOf(input, p.State.Get); measured != "" {
		for _, line := range p.Result.Working {
			if line.Label == step {
				return line.Value, measured
			}
		}
	}
	return typed, typed
}

// measurements are the inputs whose measurement replaces another input.
var measurements = [...]struct{ input, by string }{{"gel", "floated"}, {"growth", "became"}, {"push", "measured"},
	{"gas", "pulls"}, {"gas", "holds"}}

// measuredOf returns the typed measurement that replaces an input; "" if there is none.
func measuredOf(input string, typed func(key string) string) string {
	for _, m := range measurements {
		if text := strings.TrimSpace(typed(m.by)); m.input == input && text != "" {
			return text
		}
	}
	return ""
}

// ownFields returns the measured figures, as fields of the page of figures.
func (r *request) ownFields(p *view.CalcPage, raw map[string]string) []view.CalcMine {
	var mine []view.CalcMine
	for _, own := range figureInputs {
		typed, note := counted(p, own.input, strings.TrimSpace(raw[own.input]))
		if own.calculator != p.Calculator.Name || typed == "" {
			continue
		}
		key := own.key(raw)
		if part, whole, of := strings.Cut(typed, " of "); of { // a count, which the calculator has read
			n, _ := measure.ParseCount(part)
			all, _ := measure.ParseCount(whole)
			typed = measure.FormatNumber(100*float64(n)/float64(max(1, all)), 4)
		}
		// The figures have one unit each. In another unit nothing is offered.
		value, err := measure.ParseNumber(strings.TrimRight(typed, " %gLbar"))
		for _, f := range figures.All() {
			if value *= own.times; f.Key == key && err == nil && value >= f.Min && value <= f.Max {
				text := measure.FormatNumber(value, 4)
				mine = append(mine, view.CalcMine{ID: key, Page: address.Figures, Label: f.Label + ": " + text + " " + f.Unit,
					Fields: [][2]string{{"group", f.Group}, {view.FigureKey(key), text},
						{view.FigureNote(key), "Measured: " + note}}})
			}
			value /= own.times
		}
	}
	return mine
}

// ownActions returns the ways in which a job can use a measurement: as a figure, or in its kit.
func ownActions(j *job.Job, p *view.CalcPage, figures []view.CalcMine) []view.CalcMine {
	all := slices.Clone(figures)
	kind, fields, label := ownKit(p)
	found := false
	put := func(id, name, act, prefix string) {
		d := view.CalcMine{ID: id, Page: address.Kit, Label: name + ": " + label,
			Fields: [][2]string{{view.FieldAct, act}, {"id", id}, {prefix + "name", name}}}
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

// ownBags offers the bags for each size of balloon in the job.
func ownBags(j *job.Job, p *view.CalcPage) []view.CalcMine {
	var mine []view.CalcMine
	for _, size := range job.Sizes {
		if slices.ContainsFunc(j.Colours, func(c job.Colour) bool { return c.Has(size) }) {
			id := "latex/" + strconv.Itoa(size)
			mine = append(mine, view.CalcMine{ID: id, Page: address.Shop,
				Label:  "What " + soldAs(nil, id) + " balloons are sold in",
				Fields: [][2]string{{view.BagsInput(id), p.State.Get("bags")}}})
		}
	}
	return mine
}

// kitMeasured offers measurements from the kit of the jobs: bench tests of frames and the room in cars. Other inputs
// stay as typed.
func (r *request) kitMeasured(p *view.CalcPage) {
	if p.Calculator.Name != "dip" && p.Calculator.Name != "car" {
		return
	}
	for _, row := range r.rows() {
		if j, found := r.findJob(row.ID); found && !row.Archived && len(p.Kit) < 2*jobsShown {
			kitOf(&j, p)
		}
	}
}

// kitOf adds the measurements of one job's kit to the page.
func kitOf(j *job.Job, p *view.CalcPage) {
	for i := range j.Kit {
		k := &j.Kit[i]
		label, fields := "", ""
		switch {
		case p.Calculator.Name == "dip" && k.Kind == "frame" && k.TestWeightG > 0 && k.TestedMM > 0:
			label = "bench test at " + measure.FormatLength(k.TestedMM, p.Units)
			fields = "test_span=" + lengthText(k.TestedMM) + "&test_weight=" + measure.FormatNumber(k.TestWeightG, 3) +
				"g&test_dip=" + lengthText(k.TestDipMM) + "&test_stays=" + lengthText(k.TestStaysMM) +
				"&tube_outer=&tube_wall="
		case p.Calculator.Name == "car" && k.Kind == "car" && k.Litres > 0:
			label = measure.FormatNumber(k.Litres, 0) + " litres"
			fields = "litres=" + measure.FormatNumber(k.Litres, 0) + "&cargo="
		default:
			continue
		}
		with := p.State.Values.Clone()
		set, _ := form.ParseQuery(fields) // our own
		for key, list := range set {
			with[key] = list
		}
		with.Set(view.CalcUnits, string(p.Units))
		p.Kit = append(p.Kit,
			[2]string{address.Calculator.Path(p.Calculator.Name) + "?" + with.Query(),
				k.Name + ": " + label + ", " + j.Brief.Title})
	}
}

// ownKit returns a measurement for the kit: a bench test or the room in a car.
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
		fields = [][2]string{{"tested_mm", lengthText(mm)}, {"test_weight_g", measure.FormatNumber(grams, 3) + " g"},
			{"test_dip_mm", lengthText(dip)}, {"test_stays_mm", lengthText(stays)}}
		return "frame", fields, "its bench test at " + measure.FormatLength(mm, units)
	case p.Calculator.Name == "car":
		litres, longest := measure.FormatNumber(p.Result.Number("car_l"), 0), p.Result.Number("longest_mm")
		fields = [][2]string{{"litres", litres}, {"longest_mm", lengthText(longest)}}
		return "car", fields, litres + " litres, longest " + measure.FormatLength(longest, p.Units)
	}
	return "", nil, ""
}
