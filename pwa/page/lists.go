package page

import (
	"strings"

	"garlandry/app/job"
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
	other:  "people",
	fields: []string{"name", "skill", "from", "to", "home", "drives", "again"},
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
			if m.Drives {
				below += ", can drive"
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

// addedList is the user's own lines.
var addedList = list{
	noun: "added", address: address.Added, title: "Lines of your own", what: "a line",
	lead:   "Extra cards and things to pack.",
	teach:  "Add a thing to pack or a card, such as collect the key.",
	fields: []string{"text", "count", "bag", "minutes", "hands"},
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
	kind: "list", asked: func(list string) []string {
		if list == "pack" {
			return []string{"text", "count", "bag"}
		}
		return []string{"text", "minutes", "hands"}
	},
}
