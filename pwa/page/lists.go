package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// coloursList is the palette.
var coloursList = list{
	noun: "colour", address: address.Colours, title: "Colours", what: "a colour",
	lead:   "Tick the sizes each colour comes in. The plan replaces missing sizes.",
	teach:  "Your balloon colours. Tap one below or add your own.",
	fields: []string{"name", "value", "finish", "sizes"},
	entries: func(j *job.Job) []entry {
		var all []entry
		for i, c := range j.Colours {
			all = append(all,
				entry{id: c.ID, title: c.Name, below: c.Finish + ", " + sizesSay(c.Sizes), order: c.Order, colour: &j.Colours[i]})
		}
		return all
	},
	starters: func(j *job.Job) []job.Colour {
		var left []job.Colour
		for _, c := range view.StartColours() {
			used := false
			for _, have := range j.Colours {
				used = used || strings.EqualFold(have.Name, c.Name)
			}
			if !used {
				left = append(left, c)
			}
		}
		return left
	},
}

// membersList is the crew.
var membersList = list{
	noun: "member", address: address.Crew, title: "Crew", what: "somebody",
	lead:   "Who works on this job, and when.",
	teach:  "Add everybody who helps, yourself too. Beginners take longer.",
	fields: []string{"name", "skill", "from", "to", "home", "again"},
	entries: func(j *job.Job) []entry {
		var all []entry
		for _, m := range j.Crew {
			below := m.Skill
			if from := view.DayClock(m.From); from != "" {
				below += ", from " + from
			}
			if to := view.DayClock(m.To); to != "" {
				below += ", until " + to
			}
			if m.Home {
				below += ", helps at home"
			}
			for _, s := range m.Again {
				below += ", " + view.SpanWords(s)
			}
			all = append(all, entry{id: m.ID, title: m.Name, below: below, order: m.Order})
		}
		return all
	},
	check: func(j *job.Job, id string) []*job.FieldError {
		for _, m := range j.Crew {
			if m.ID == id {
				return m.CheckTogether()
			}
		}
		return nil
	},
}

// benchFields are those of a bar's bench test.
const benchFields = "tested_mm test_weight_g test_dip_mm test_stays_mm"

// frameChoices are the frames of the kit, to pick from.
func frameChoices(j *job.Job) []job.Choice {
	var frames []job.Choice
	for i := range j.Kit {
		if k := &j.Kit[i]; k.Kind == "frame" {
			frames = append(frames, job.Choice{Value: k.ID, Label: k.Name})
		}
	}
	return frames
}

// kitList is the kit, which comes home.
var kitList = list{
	noun: "kit", address: address.Kit, title: "Kit", what: "a thing",
	lead:  "What comes home: frames, pumps, ladder, car. The car limits the length of sections.",
	teach: "Add frames, pumps, the ladder and the car. They go on the pack list.",
	fields: []string{"kind", "name", "count", "width_mm", "height_mm", "tested_mm", "test_weight_g", "test_dip_mm",
		"test_stays_mm", "weight_g", "frame", "at_mm", "litres", "longest_mm", "notes"},
	entries: func(j *job.Job) []entry {
		units := measure.System(j.Brief.Units)
		var all []entry
		for _, k := range j.Kit {
			below := k.Kind
			for _, part := range []string{lengthOr("", k.WidthMM, units), lengthOr("high ", k.HeightMM, units),
				lengthOr("bar tested at ", k.TestedMM, units), lengthOr("takes ", k.LongestMM, units)} {
				if part != "" {
					below += ", " + part
				}
			}
			all = append(all, entry{id: k.ID, title: k.Name, below: below, order: k.Order})
		}
		return all
	},
	options: func(j *job.Job) map[string][]job.Choice { return map[string][]job.Choice{"frame": frameChoices(j)} },
	hidden: func(kind string) string {
		switch kind {
		case "frame":
			return "frame at_mm litres longest_mm"
		case "car":
			return "width_mm height_mm weight_g frame at_mm " + benchFields
		case "other":
			return "litres longest_mm " + benchFields
		}
		return "width_mm weight_g frame at_mm litres longest_mm " + benchFields
	},
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

// addedList is the user's own lines.
var addedList = list{
	noun: "added", address: address.Added, title: "Lines of your own", what: "a line",
	lead:   "Extra cards and things to pack.",
	teach:  "Add a thing to pack or a card, such as collect the key.",
	fields: []string{"list", "text", "count", "bag", "minutes", "hands"},
	entries: func(j *job.Job) []entry {
		n := nounOf("added/x")
		lists, _ := n.Field("list")
		var all []entry
		for _, l := range j.Added {
			below := l.List
			for _, c := range lists.Choices {
				if c.Value == l.List {
					below = c.Label
				}
			}
			if l.Bag != "" {
				below += ", in " + l.Bag
			}
			all = append(all, entry{id: l.ID, title: l.Text, below: below, order: l.Order})
		}
		return all
	},
	fresh: func(r *request) map[string]string {
		if picked := r.in.Get("list"); picked != "" {
			return map[string]string{"list": picked}
		}
		return nil
	},
}
