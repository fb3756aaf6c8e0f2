package page

import (
	"errors"
	"strings"

	"garlandry/calc"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func calcList(a *ask) *Reply { return a.draw("Calculators", view.CalcList(a.frame, calc.All())) }

// calculator draws one calculator; its inputs are the query, so that a result can be linked to.
func calculator(a *ask) *Reply {
	c, known := calc.Find(a.address.Item)
	if !known {
		return a.notFound()
	}
	a.frame.Units = unitsOf(a.in, a.frame.Units)
	p := view.CalcPage{Calculator: c, State: form.NewState(), Units: a.frame.Units}
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
		a.kitMeasured(&p)
		a.reckon(&p, raw)
	}
	if !p.State.OK() {
		return a.wrong(c.Title, view.Calc(a.frame, p))
	}
	return a.draw(c.Title, view.Calc(a.frame, p))
}

func (a *ask) reckon(p *view.CalcPage, raw map[string]string) {
	with := raw
	if !p.Worked {
		with = map[string]string{}
		for key, text := range raw {
			with[key] = text
		}
		a.ownDefaults(p, with)
	}
	result, err := p.Calculator.ComputeBy(a.Model, with, a.frame.Units)
	if err != nil {
		a.calcFault(p, err)
		return
	}
	p.Result = &result
	if recipe := a.Model.Wants(); recipe != "" && a.Later != nil {
		a.Later(recipe, a.Model.Work)
	}
	if !p.Worked {
		a.calcJobs(p, raw)
	}
}

// calcFault puts an error at its input, with an example as one types it into a form.
func (a *ask) calcFault(p *view.CalcPage, err error) {
	fault, is := errors.AsType[*calc.InputError](err)
	if !is {
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
