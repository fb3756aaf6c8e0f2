package page

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

// jobsShown is the most jobs offered for a result.
const jobsShown = 4

// calcJobs finds the pieces that can use the result and the jobs that can use the visitor's own push.
func (r *request) calcJobs(p *view.CalcPage, raw map[string]string) {
	_, pushes := p.Calculator.Input("measured")
	fills := r.calcFills(p, raw)
	mine := r.ownFields(p, raw)
	shown := 0
	for _, row := range r.rows() {
		j, found := r.findJob(row.ID)
		if row.Archived || !found || shown >= jobsShown || !r.Visitor.Role.May(job.Set, "piece/x") {
			continue
		}
		shown++
		for _, piece := range j.Pieces {
			if use := useOf(piece, append(r.shares(&j, piece, p, raw), fills...)); len(use.Fields) > 0 {
				use.Job, use.JobTitle = j.ID, j.Brief.Title
				p.Uses = append(p.Uses, use)
			}
		}
		if r.Visitor.Role != job.Owner {
			continue
		}
		if pushes {
			p.Own = append(p.Own, ownPush(j, p, raw))
		}
		p.Mine = append(p.Mine, ownActions(&j, p, mine)...)
	}
}

// calcFill is a value that a calculator can put into a field of a piece. An empty kind fits every piece with the field.
type calcFill struct {
	kind               job.PieceKind
	field, label, text string
}

func (r *request) calcFills(p *view.CalcPage, raw map[string]string) []calcFill {
	var fills []calcFill
	add := func(kind job.PieceKind, field, label, text string) {
		fills = append(fills, calcFill{kind, field, label + " " + text, text})
	}
	length := func(kind job.PieceKind, field, label string, mm float64) {
		if mm >= 100 {
			fills = append(fills, calcFill{kind, field, label + " " + measure.FormatLength(mm, r.frame.Units), lengthText(mm)})
		}
	}
	typed := func(key string) float64 {
		mm, _ := measure.ParseLengthMM(raw[key], r.frame.Units) // the calculator has read it
		return mm
	}
	for _, k := range count.Kinds() {
		for _, a := range k.Answers {
			if a.Calculator != p.Calculator.Name || !strings.HasPrefix(raw["shape"], a.Shape) {
				continue
			}
			mm := p.Result.Number(a.From)
			if a.Typed {
				mm = typed(a.From)
			}
			length(k.Name, a.Field, a.Label, mm)
		}
	}
	switch p.Calculator.Name {
	case "size", "heat":
		toMM := p.Result.Number("diameter_mm")
		if p.Calculator.Name == "heat" {
			toMM = p.Result.Number("fill_to_mm")
		}
		if size, err := measure.ParseCount(strings.TrimRight(raw["size"], " in\"")); err == nil {
			add("", "size_in", "size", strconv.Itoa(size))
			add("", "to_in", "sized to, inches,", measure.FormatNumber(toMM/measure.MMPerInch, 2))
		}
	case "match":
		if part, err := cluster.ParsePart(raw["with"]); err == nil {
			part.Duplets = int(p.Result.Number("duplets"))
			add("", "recipe", "recipe", cluster.Recipe{part}.String())
		}
		return fills
	}
	if recipe := strings.TrimSpace(raw["recipe"]); recipe != "" && p.Calculator.Name != "car" {
		add("", "recipe", "recipe", recipe)
	}
	if cover := strings.TrimSpace(raw["coverage"]); cover != "" {
		add("", "accent_cover_pct", "accents until hidden", strings.TrimRight(cover, " %"))
	}
	if accent := strings.TrimSpace(raw["accent"]); accent != "" {
		add("", "accent_recipe", "accents of", accent)
	}
	return fills
}

// shares returns the typed shares for a piece: by the names of colours, or in the order of the piece's colours.
func (r *request) shares(j *job.Job, piece job.Piece, p *view.CalcPage, raw map[string]string) []calcFill {
	if p.Calculator.Name != "split" {
		return nil
	}
	var fills []calcFill
	for i, part := range strings.FieldsFunc(raw["weights"], func(r rune) bool { return r == ',' || r == ';' }) {
		name, weight := "", strings.TrimSpace(part)
		if at := strings.LastIndex(weight, " "); at >= 0 {
			name, weight = strings.TrimSpace(weight[:at]), weight[at+1:]
		}
		id := ""
		for _, c := range j.Colours {
			if name != "" && strings.EqualFold(c.Name, name) {
				id = c.ID
			}
		}
		if name == "" && i < len(piece.Colours) {
			id = piece.Colours[i].Colour
		}
		if id == "" {
			return nil // an unknown colour: offer nothing rather than a part
		}
		fills = append(fills, calcFill{"", "colours." + id, "colours " + part, weight})
	}
	return fills
}

// useOf collects the values that fit a piece.
func useOf(piece job.Piece, fills []calcFill) view.CalcUse {
	use := view.CalcUse{Piece: piece.ID, PieceName: piece.Name}
	has, _ := view.PieceFields(piece.Kind, "typed")
	var labels []string
	for _, f := range fills {
		if f.kind != "" && f.kind != piece.Kind {
			continue
		}
		for _, name := range has {
			if kind, _, _ := strings.Cut(f.field, "."); name == kind {
				use.Fields = append(use.Fields, [2]string{f.field, f.text})
				labels = append(labels, f.label)
			}
		}
	}
	use.Label = strings.Join(labels, ", ")
	return use
}

// pushFigure is the figure for how hard clusters are pushed together.
const pushFigure = "base/push"

// ownPush returns the push that the job uses and the visitor's own.
func ownPush(j job.Job, p *view.CalcPage, raw map[string]string) view.CalcOwn {
	own := view.CalcOwn{Job: j.ID, JobTitle: j.Brief.Title, Figure: pushFigure}
	if o, there := j.Overrides[pushFigure]; there && o.Value != nil {
		own.Theirs = measure.FormatNumber(*o.Value, 4)
	}
	measured := strings.TrimSpace(raw["measured"])
	if measured != "" {
		own.Note = "Measured: " + measured + ", clusters of " + strings.TrimSpace(raw["recipe"])
	}
	if measured != "" || strings.TrimSpace(raw["push"]) != "" {
		own.Push = measure.FormatNumber(p.Result.Number("push"), 4)
	}
	return own
}
