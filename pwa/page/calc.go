package page

import (
	"errors"
	"strings"

	"garlandry/app/job"
	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func calcList(a *ask) Reply { return a.draw("Calculators", view.CalcList(a.frame, calc.All())) }

// calculator draws one calculator; its inputs are the query, so that a result can be linked to.
func calculator(a *ask) Reply {
	c, known := calc.Find(a.stars[0])
	if !known {
		return a.notFound()
	}
	a.frame.Units = unitsOf(a.in, a.frame.Units)
	p := view.CalcPage{Calculator: c, State: form.State{Values: form.Values{}, Errors: map[string]string{}}}
	raw, typed := map[string]string{}, false
	for _, in := range c.Inputs {
		text := a.in.Get(in.Key)
		typed = typed || a.in.Has(in.Key)
		p.State.Values.Set(in.Key, text)
		if raw[in.Key] = text; len(text) > form.MaxTyped {
			p.State.Fail(in.Key, in.Label+" is far too long.")
		}
	}
	if !typed {
		p.Worked = true
		raw = c.Example.Raw()
		for key, text := range raw {
			p.State.Values.Set(key, text)
		}
	}
	if p.State.OK() {
		a.reckon(&p, raw)
	}
	if !p.State.OK() {
		return a.wrong(c.Title, view.Calc(a.frame, p))
	}
	return a.draw(c.Title, view.Calc(a.frame, p))
}

func (a *ask) reckon(p *view.CalcPage, raw map[string]string) {
	result, err := p.Calculator.Compute(raw, a.frame.Units)
	if err != nil {
		a.calcFault(p, err)
		return
	}
	p.Result = &result
	if !p.Worked {
		a.calcUses(p, raw)
	}
}

// calcFault puts an error at its input, with an example as one types it into a form.
func (a *ask) calcFault(p *view.CalcPage, err error) {
	var fault *calc.InputError
	if !errors.As(err, &fault) {
		p.State.Alert = raised(err.Error())
		return
	}
	in, known := p.Calculator.Input(fault.Input)
	if !known {
		p.State.Alert = raised(fault.Error())
		return
	}
	message, _, _ := strings.Cut(fault.Message, "; for example ")
	if in.Example != "" {
		message += "; for example " + in.Example
	}
	p.State.Fail(in.Key, raised(message))
}

// usesShown bounds how many jobs are offered for a result.
const usesShown = 4

// calcUses finds the pieces that the result can be put into.
func (a *ask) calcUses(p *view.CalcPage, raw map[string]string) {
	lengthMM := p.Result.Number("length_mm")
	if text := raw["length"]; lengthMM == 0 && text != "" {
		lengthMM, _ = measure.ParseLengthMM(text, a.frame.Units) // was read by the calculator
	}
	recipe := strings.TrimSpace(raw["recipe"])
	jobs := 0
	for _, row := range a.rows() {
		j, found := a.findJob(row.ID)
		if row.Away || !found || jobs >= usesShown || !a.Visitor.Role.May(job.Set, "piece/x") {
			continue
		}
		jobs++
		for _, piece := range j.Pieces {
			use := view.CalcUse{Job: j.ID, JobTitle: j.Brief.Title, Piece: piece.ID, PieceName: piece.Name}
			if lengthMM >= 100 && piece.Kind == job.Garland {
				use.Field, use.Label, use.Text = "length_mm", "length "+measure.FormatLength(lengthMM, a.frame.Units), lengthText(lengthMM)
				p.Uses = append(p.Uses, use)
			}
			if recipe != "" && takesRecipe(piece.Kind) {
				use.Field, use.Label, use.Text = "recipe", "recipe "+recipe, recipe
				p.Uses = append(p.Uses, use)
			}
		}
		if a.Visitor.Role == job.Owner && p.Result.Outputs["pitch_mm"] != nil {
			p.Own = append(p.Own, view.CalcOwn{Job: j.ID, JobTitle: j.Brief.Title})
		}
	}
}

func takesRecipe(kind job.PieceKind) bool {
	fields, _ := view.PieceFields(kind, "typed")
	for _, name := range fields {
		if name == "recipe" {
			return true
		}
	}
	return false
}
