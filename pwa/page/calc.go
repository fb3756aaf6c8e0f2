package page

import (
	"errors"
	"maps"

	"garlandry/calc"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func calcList(r *request) *Reply { return r.draw("Calculators", view.CalcList(r.frame, calc.All())) }

// calculator draws one calculator. Its inputs are the query, so a result can be linked to.
func calculator(r *request) *Reply {
	c, known := calc.Find(r.address.Item)
	if !known {
		return r.notFound()
	}
	r.frame.Units = unitsOf(r.in, r.frame.Units)
	p := view.CalcPage{Calculator: c, State: form.NewState(), Units: r.frame.Units}
	raw, typed := map[string]string{}, false
	for _, in := range c.Inputs {
		text := r.in.Get(in.Key)
		typed = typed || r.in.Has(in.Key)
		p.State.Values.Set(in.Key, text)
		if raw[in.Key] = text; len(text) > form.MaxTyped {
			p.State.Fail(in.Key, in.Label+" is too long.")
		}
	}
	if !typed {
		p.Worked = true
		raw = c.ExampleIn(r.frame.Units).Raw()
		for key, text := range raw {
			p.State.Values.Set(key, text)
		}
	}
	if p.State.OK() {
		raw = r.apart(&p, raw)
		r.kitMeasured(&p)
		r.compute(&p, raw)
	}
	if !p.State.OK() {
		return r.invalid(c.Title, view.Calc(r.frame, p))
	}
	return r.draw(c.Title, view.Calc(r.frame, p))
}

// apart puts a width and a height that were typed into one input each into its own. [calc.Calculator.Compute] refuses
// what cannot be read.
func (r *request) apart(p *view.CalcPage, raw map[string]string) map[string]string {
	raw, err := p.Calculator.Apart(raw, r.frame.Units)
	if err == nil {
		for _, key := range []string{"width", "height"} {
			if text, asked := raw[key]; asked {
				p.State.Values.Set(key, text)
			}
		}
	}
	return raw
}

// compute runs the calculator and fills the page with its result.
func (r *request) compute(p *view.CalcPage, raw map[string]string) {
	with := raw
	if !p.Worked {
		with = maps.Clone(raw)
		r.ownDefaults(p, with)
	}
	result, err := p.Calculator.Compute(r.Model, with, r.frame.Units)
	if err != nil {
		r.calcFault(p, err)
		return
	}
	p.Result = &result
	if recipe := r.Model.Wants(); recipe != "" && r.Later != nil {
		r.Later(recipe, r.Model.Work)
	}
	if !p.Worked {
		r.calcJobs(p, raw)
	}
}

// calcFault puts an error at its input, with an example.
func (r *request) calcFault(p *view.CalcPage, err error) {
	fault, is := errors.AsType[*calc.InputError](err)
	if !is {
		p.State.Alert = capitalized(err.Error())
		return
	}
	in, known := p.Calculator.Input(fault.Input)
	if !known {
		p.State.Alert = capitalized(fault.Error())
		return
	}
	message := fault.Message
	if fault.Example != "" {
		message += "; for example " + fault.Example
	}
	p.State.Fail(in.Key, capitalized(message))
}
