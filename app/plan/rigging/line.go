package rigging

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// The answers to whether anybody can be under a sign.
const (
	pickClear  = "clear"
	pickPeople = "people"
)

// OverheadKey returns the key of the choice whether anybody can be under a sign.
func OverheadKey(k job.Kit) string { return "overhead/" + k.ID }

// OverheadOptions returns the answers to that choice.
func OverheadOptions() []count.Option {
	return []count.Option{{Value: pickPeople, Label: "People can be under it"},
		{Value: pickClear, Label: "Nobody can be under it"}}
}

// LineHolds says in words whether two lines hold a sign, see [rig.Line.Hold]. It gives no verdict without the sign's
// weight, or while people can be under the sign, which it assumes until the user says otherwise.
func (d *Rig) LineHolds(k job.Kit) string {
	strength := d.Figures.Get("line/strength")
	line := rig.Line{MassG: k.WeightG, Points: 2, StrengthN: strength,
		OverPeople: d.Picked(OverheadKey(k), OverheadOptions()) != pickClear}
	hold, err := line.Hold()
	switch {
	case err != nil:
		return ""
	case line.OverPeople:
		return hold.Notes[0]
	case k.WeightG <= 0:
		return "Weigh it and write its weight into the kit: the plan then checks the line."
	}
	words := "It weighs " + measure.FormatMass(k.WeightG, d.Units) + ". On two vertical lines that break at " +
		measure.FormatForce(strength, d.Units) + ", each pulls " + measure.FormatForce(hold.PerLineN, d.Units) + " of " +
		measure.FormatForce(hold.AllowedN, d.Units) + " allowed: " + string(hold.Verdict) + "."
	for _, note := range hold.Notes {
		words += " " + note
	}
	return words
}
