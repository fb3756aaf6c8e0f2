package page

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// checkPiece checks what depends on several fields of a piece, and whether its plan would be too large.
func (r *request) checkPiece(d *draft) {
	tried := job.Try(r.job, d.changes)
	p, known := tried.Piece(strings.TrimPrefix(d.entity(), "piece/"))
	if !known {
		d.state.Fail("name", "Name is needed.")
		return
	}
	r.checkSize(d, p)
	r.checkReferences(d, p, tried)
	if !d.state.OK() {
		return
	}
	count, _ := findCount(plan.Counted(tried), d)
	if why := count.Oversized(); why != "" {
		d.state.Fail(d.sizeField(),
			capitalized(why)+". Make it smaller or split it"+d.measures(r.frame.Units)+".")
	}
}

// measures lists the fields that make a piece large, each with its range.
func (d *draft) measures(units measure.System) string {
	list := ""
	for _, f := range d.noun().Fields {
		if d.asks(f.Name) && (f.Kind == job.Length || f.Name == "count" || f.Name == "each") {
			list += "; " + strings.ToLower(f.Label) + " may be " + form.Range(&f, units)
		}
	}
	return list
}

// sizeField names the field that most likely made the piece too big.
func (d *draft) sizeField() string {
	for _, name := range []string{"length_mm", "width_mm", "diameter_mm", "height_mm", "count", "counts", "name"} {
		if d.asks(name) {
			return name
		}
	}
	return "name"
}

func (d *draft) asks(name string) bool { return slices.Contains(d.fields, name) }

// checkSize checks that a balloon size is known, and that it can be sized to what was typed.
func (r *request) checkSize(d *draft, p job.Piece) {
	if !d.asks("size_in") {
		return
	}
	if !job.KnownSize(p.SizeIn) {
		d.state.Fail("size_in", "There is no "+strconv.Itoa(p.SizeIn)+"-inch size. Pick one from the list.")
		return
	}
	if !(p.ToIn > 0) {
		return
	}
	if err := (cluster.Recipe{{Duplets: 1, SizeIn: p.SizeIn, ToIn: p.ToIn}}).Check(); err != nil {
		text := form.Plainly(err)
		if _, after, found := strings.Cut(text, ": "); found {
			text = after
		}
		d.state.Fail("to_in", capitalized(text)+".")
	}
}

// checkReferences checks that colours are in the palette and the frame is in the kit. Colours of typed rows may be
// removed ones.
func (r *request) checkReferences(d *draft, p job.Piece, tried job.Job) {
	for _, c := range d.changes {
		switch c.Field {
		case "colours", "accent_colours":
			var shares []job.Share
			_ = json.Unmarshal(c.Value, &shares) // checked before
			for _, s := range shares {
				if _, known := tried.Colour(s.Colour); !known {
					d.state.Fail(c.Field+"."+s.Colour, "This colour is no longer in the palette.")
					d.state.Fail(c.Field, view.LabelNoColour)
				}
			}
		case "counts":
			for _, row := range p.Counts { // rows of a removed colour stay
				if len(tried.State.Registers["colour/"+row.Colour]) == 0 {
					d.state.Fail("counts", view.LabelNoColour)
				}
			}
		case "frame":
			if _, known := tried.KitItem(p.Frame); p.Frame != "" && !known {
				d.state.Fail("frame", "This frame is no longer in the kit.")
			}
		}
	}
}

// clean returns a name as it will be stored.
func clean(name string) string { return truncate(strings.TrimSpace(name), 80) }
