package page

import (
	"encoding/json"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
)

// checkPiece looks at what only shows across the fields of a piece, and in the plan that would come of it.
func (r *request) checkPiece(d *draft) {
	tried := form.Try(r.job, d.changes)
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
	count, _ := findCount(plan.Design(tried), d)
	if why := count.Oversized(); why != "" {
		d.state.Fail(d.sizeField(), capitalized(why)+". Make it smaller, or several pieces of it"+d.measures(r.frame.Units)+".")
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
		for _, field := range d.fields {
			if field == name {
				return name
			}
		}
	}
	return "name"
}

func (d *draft) asks(name string) bool {
	for _, field := range d.fields {
		if field == name {
			return true
		}
	}
	return false
}

// checkSize holds a balloon size to the known ones, and what it is sized to within what that size takes.
func (r *request) checkSize(d *draft, p job.Piece) {
	if !d.asks("size_in") {
		return
	}
	if !job.KnownSize(p.SizeIn) {
		d.state.Fail("size_in", "There is no "+strconv.Itoa(p.SizeIn)+"-inch size; pick one of the list.")
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

// checkReferences sees that colours are in the palette, those of rows once were, and the frame in the kit.
func (r *request) checkReferences(d *draft, p job.Piece, tried job.Job) {
	for _, c := range d.changes {
		switch c.Field {
		case "colours", "accent_colours":
			var shares []job.Share
			_ = json.Unmarshal(c.Value, &shares) // was checked
			for _, s := range shares {
				if _, known := tried.Colour(s.Colour); !known {
					d.state.Fail(c.Field+"."+s.Colour, "There is no such colour in the palette any more.")
					d.state.Fail(c.Field, "One of the colours is not in the palette any more.")
				}
			}
		case "counts":
			for _, row := range p.Counts { // rows of a colour that was removed since stay as they are
				if len(tried.State.Registers["colour/"+row.Colour]) == 0 {
					d.state.Fail("counts", "One of the colours is not in the palette any more.")
				}
			}
		case "frame":
			if _, known := tried.KitItem(p.Frame); p.Frame != "" && !known {
				d.state.Fail("frame", "There is no such frame in the kit any more.")
			}
		}
	}
}

// clean gives the words of a name as they will be kept, for a message.
func clean(name string) string { return truncate(strings.TrimSpace(name), 80) }
