package page

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// usable returns the fields that a calculator can fill.
func usable() []string {
	return []string{"length_mm", "width_mm", "height_mm", "diameter_mm", "recipe", "accent_recipe", "accent_cover_pct",
		"size_in", "to_in"}
}

// usePiece puts the result of a calculator into a piece. A length turns a garland's line into a typed length.
func usePiece(r *request, p job.Piece) *Reply {
	v := form.Values{}
	var fields []string
	for _, name := range usable() {
		if r.in.Has(name) {
			v[name] = r.in[name]
			fields = append(fields, name)
		}
	}
	shares := r.in.Under("colours.")
	for _, id := range shares {
		v["colours."+id] = r.in["colours."+id]
	}
	if len(shares) > 0 {
		fields = append(fields, "colours")
	}
	d := &draft{id: p.ID}
	d.shape(string(p.Kind), p.Line)
	for _, name := range fields {
		if kind, _ := count.KindOf(count.Kinds(), p.Kind); name == "length_mm" && kind.ByLine != nil {
			v.Set("line", "typed")
			fields = append(fields, "line")
			d.shape(string(p.Kind), "typed")
		}
	}
	d.changes, d.state = form.Entity(d.noun(), d.entity(), fields, v, r.frame.Units)
	if d.state.OK() {
		r.checkPiece(d)
	}
	if !d.state.OK() {
		filled := form.Fill(d.noun(), r.job.State, d.entity(), d.fields, r.frame.Units)
		for key, list := range v {
			filled.Values[key] = list
		}
		d.state.Values = filled.Values
		return r.invalid(p.Name, r.drawPiece(d, false))
	}
	changes := []job.Change{}
	for _, c := range d.changes {
		if string(r.job.State.Register(c.Entity, c.Field).Value()) != string(c.Value) {
			changes = append(changes, c)
		}
	}
	return r.save(changes, r.at(address.Piece, p.ID), "Put into "+p.Name+".")
}

// lengthText writes a length without rounding loss.
func lengthText(mm float64) string { return measure.FormatNumber(mm, 1) + " mm" }
