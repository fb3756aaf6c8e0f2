package rigging

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// What may be decided about a sign: whether anybody can be under it.
const (
	pickClear  = "clear"
	pickPeople = "people"
)

func OverheadKey(k job.Kit) string { return "overhead/" + k.ID }

func OverheadOptions() []count.Option {
	return []count.Option{{Value: pickPeople, Label: "People can be under it"},
		{Value: pickClear, Label: "Nobody can be under it"}}
}

// LineHolds says in words whether two lines hold a sign, see [rig.Line.Hold]. There is no verdict while people can be
// under the sign, which is assumed until the user says otherwise, nor without its weight.
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
		return "Weigh it and write the weight into the kit: then the plan says whether the line holds."
	}
	words := "It weighs " + measure.FormatMass(k.WeightG, d.Units) + ". On two upright lines that break at " +
		measure.FormatForce(strength, d.Units) + " each pulls " + measure.FormatForce(hold.PerLineN, d.Units) + " of " +
		measure.FormatForce(hold.AllowedN, d.Units) + " allowed: " + string(hold.Verdict) + "."
	for _, note := range hold.Notes {
		words += " " + note
	}
	return words
}
