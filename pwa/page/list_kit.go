package page

import (
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// frameChoices are the frames of the kit, and the stands of another kind unless it is "", to pick from.
func frameChoices(j *job.Job, also string) []job.Choice {
	var frames []job.Choice
	for i := range j.Kit {
		if k := &j.Kit[i]; k.Kind == "frame" || k.Kind == also {
			frames = append(frames, job.Choice{Value: k.ID, Label: k.Name})
		}
	}
	return frames
}

// kitList is the kit, which comes home.
var kitList = list{
	noun: "kit", address: address.Kit, title: "Kit", what: "a thing",
	lead:   "What comes home: frames, stands, pumps, ladder, car. Feet decide the weights, the car the sections.",
	teach:  "Add frames, pumps, the ladder and the car. They go on the pack list.",
	fields: slices.Concat([]string{"name", "count"}, kitOwnFields, []string{"notes"}),
	entries: func(j *job.Job) []entry {
		units := measure.System(j.Brief.Units)
		var all []entry
		for _, k := range j.Kit {
			below := kitKind(k.Kind)
			for _, part := range []string{lengthOr("", k.WidthMM, units), lengthOr("high ", k.HeightMM, units),
				lengthOr("feet ", k.FeetDepthMM, units), lengthOr("bar tested at ", k.TestedMM, units),
				lengthOr("takes ", k.LongestMM, units)} {
				if part != "" {
					below += ", " + part
				}
			}
			all = append(all, entry{id: k.ID, title: k.Name, below: below, order: k.Order})
		}
		return all
	},
	options: func(j *job.Job) map[string][]job.Choice {
		return map[string][]job.Choice{"frame": frameChoices(j, ""), "driver": driverChoices(j)}
	},
	other: "kit",
	kind:  "kind", asked: fieldsOfKit,
	check: func(j *job.Job, id string) []*job.FieldError {
		k, _ := j.KitItem(id)
		if frame, _ := j.KitItem(k.Frame); frame.WidthMM > 0 &&
			k.AtMM > frame.WidthMM { // a removed frame has no width
			return []*job.FieldError{{Path: "at_mm", Message: "That is past the end of " + frame.Name + ", which is " +
				measure.FormatLength(frame.WidthMM, measure.System(j.Brief.Units)) + " wide."}}
		}
		if err := rigging.CheckBench(k); err != nil {
			return []*job.FieldError{{Path: "test_dip_mm",
				Message: capitalized(measure.Reword(err.Error(), measure.System(j.Brief.Units)))}}
		}
		return nil
	},
}

// kitOwnFields are the fields that only some kinds of kit have.
var kitOwnFields = []string{"width_mm", "height_mm", "feet_depth_mm", "feet_width_mm", "tested_mm", "test_weight_g",
	"test_dip_mm", "test_stays_mm", "weight_g", "frame", "at_mm", "litres", "longest_mm", "driver", "gas_l"}

// fieldsOfKit returns the fields that a kind of kit has.
func fieldsOfKit(kind string) []string {
	own := []string{}
	switch kind {
	case "ladder":
		own = []string{"height_mm"}
	case "frame":
		own = []string{"width_mm", "height_mm", "feet_depth_mm", "feet_width_mm", "tested_mm", "test_weight_g",
			"test_dip_mm", "test_stays_mm", "weight_g"}
	case "pole", "digits":
		own = []string{"width_mm", "height_mm", "feet_depth_mm", "feet_width_mm", "weight_g"}
	case "car":
		own = []string{"litres", "longest_mm", "driver"}
	case "cylinder":
		own = []string{"gas_l", "weight_g"}
	case "other":
		own = []string{"width_mm", "height_mm", "weight_g", "frame", "at_mm"}
	}
	return append(own, "name", "count", "notes")
}

// kitKind returns the word for a kind of kit: "column stand".
func kitKind(kind string) string {
	field, _ := nounOf("kit/x").Field("kind")
	for _, c := range field.Choices {
		if c.Value == kind {
			return strings.ToLower(c.Label)
		}
	}
	return kind
}

// driverChoices are the people who can drive, to pick from.
func driverChoices(j *job.Job) []job.Choice {
	var drivers []job.Choice
	for i := range j.Crew {
		if m := &j.Crew[i]; m.Drives {
			drivers = append(drivers, job.Choice{Value: m.ID, Label: m.Name})
		}
	}
	return drivers
}
