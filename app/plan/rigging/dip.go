package rigging

import (
	"errors"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// CheckBench returns what is wrong with the bench test of a kit item, or nil if there is no test or nothing is wrong.
func CheckBench(k job.Kit) error {
	if !benched(k) {
		return nil
	}
	if k.TestedMM <= 0 {
		return errors.New("a bench test needs the span that the bar was tested at")
	}
	_, err := benchBar(k)
	return err
}

func benched(k job.Kit) bool { return k.TestWeightG > 0 || k.TestDipMM > 0 }

// benchBar returns the top bar of a frame, as its bench test measured it, at the width it is set to.
func benchBar(k job.Kit) (rig.Bar, error) {
	span := k.WidthMM
	if span <= 0 {
		span = k.TestedMM
	}
	return rig.BenchBar(span,
		rig.Bench{SpanMM: k.TestedMM, MassG: k.TestWeightG, DipMM: k.TestDipMM, StaysMM: k.TestStaysMM})
}

// sag is how far a frame's top bar dips under its load.
type sag struct {
	rig.Dip
	Words string
	Lines []figures.Line
}

// Sag computes how far a frame's top bar dips, see [rig.Bar.Dip]. It reports false without a usable bench test. The bar
// carries the frame's garlands, each as if all of it lay along the bar, and the signs and cloths that may hang on it,
// see [Thing.May].
func (d *Rig) Sag(k job.Kit) (s sag, known bool) {
	bar, err := benchBar(k)
	if !benched(k) || err != nil || !d.HasBar(k) {
		return s, false
	}
	hung, unweighed, guessed := d.hung(k, bar)
	visible, useless := d.Figures.Row("bar/visible"), d.Figures.Row("bar/useless")
	rule := rig.DipRule{VisiblePart: max(visible.Value, useless.Value), UselessPart: useless.Value}
	if s.Dip, err = bar.Dip(hung, rule); err != nil {
		return s, false
	}
	names := make([]string, len(hung))
	for i, l := range hung {
		names[i] = l.Name + " (" + measure.FormatMass(l.MassG, d.Units) + ")"
	}
	under := "under " + strings.Join(names, ", ")
	if len(hung) == 0 {
		under = "with nothing on it"
	}
	s.Words = "By its bench test the top bar dips " + d.SmallMM(s.DipMM) + " at " + d.Length(bar.SpanMM) + " " + under +
		": " + string(s.Verdict) + ". It shows from " + d.SmallMM(s.LimitMM) + " and is too much from " +
		d.SmallMM(s.UselessMM) + "."
	for _, note := range s.Notes {
		s.Words += " " + note
	}
	if unweighed != "" {
		s.Words += " Not counted: " + unweighed + ", because the kit does not say its weight."
	}
	if guessed != "" {
		s.Words += " No frame is set for " + guessed + ", so each frame is checked as if it carried it. Set it in the kit."
	}
	line := func(what, how string, mm float64, from figures.Source) {
		s.Lines = append(s.Lines, figures.Line{What: what, How: how, Result: d.SmallMM(mm), Source: from})
	}
	line("Dips", under, s.DipMM, figures.Source{Text: "your bench test", Mark: figures.Measured})
	line("Shows from", "span / "+phrase.Number(rule.VisiblePart), s.LimitMM, visible.Source)
	line("Too much from", "span / "+phrase.Number(rule.UselessPart), s.UselessMM, useless.Source)
	return s, true
}

// hung lists the loads on a frame's bar: bases, signs and cloths. It also names the things without a weight and those
// that name no frame.
func (d *Rig) hung(k job.Kit, bar rig.Bar) (hung []rig.Load, unweighed, guessed string) {
	for _, c := range d.Pieces {
		if c.Piece.Frame == k.ID && !c.Kind.StandsAlone && c.Balloons > 0 {
			hung = append(hung, bar.Along(c.Piece.Name, d.MassG(c)))
		}
	}
	for _, other := range d.Hanging {
		switch {
		case !other.May(k.ID):
			continue
		case other.WeightG <= 0:
			unweighed = phrase.AppendName(unweighed, other.Name)
		default:
			hung = append(hung, other.load(bar))
		}
		if other.on == "" && len(d.Frames) > 1 {
			guessed = phrase.AppendName(guessed, other.Name)
		}
	}
	return hung, unweighed, guessed
}

// HasBar reports whether a frame has a top bar. Column stands and number frames have none, nor frames called hoop or
// ring, nor those with only hoop garlands.
func (d *Rig) HasBar(k job.Kit) bool {
	if Upright(k) || phrase.HasWord(k.Name, "hoop", "hoops", "ring", "rings") {
		return false
	}
	hoops := false
	for _, c := range d.Pieces {
		if c.Piece.Frame == k.ID {
			if !c.Kind.NoTopBar {
				return true
			}
			hoops = true
		}
	}
	return !hoops
}
