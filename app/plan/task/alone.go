package task

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
)

// The answers to the choice of [AloneKey].
const (
	PickAlone    = "alone"
	PickTogether = "together"
)

// AloneKey returns the key of the choice whether one pair of hands does a card that takes several.
func AloneKey(card string) string { return "alone/" + job.KeyPath(card) }

// AloneOptions returns the answers to that choice.
func AloneOptions() []count.Option {
	return []count.Option{{Value: PickAlone, Label: "One pair of hands"}, {Value: PickTogether, Label: "Together"}}
}

// alone is the caution on a card that one pair of hands does. Common practice, no source.
var alone = &Caution{"alone", "Alone: prop or clamp each part before you let go. Above head height, on a ladder or " +
	"in wind a second pair of hands is safer: ask somebody, at the venue too. Stop if it cannot stand by itself."}

// together begins a step that takes two.
const together = "Two of you: "

// doneAlone leaves cards to one pair of hands where the user chose that. They take "hands/alone" times the hands'
// minutes. A card for one stays as it is.
func (d *draft) doneAlone(cards []Card) {
	times := d.Figures.Get("hands/alone")
	for i := range cards {
		c := &cards[i]
		if c.HandsMin < 2 || d.Picked(AloneKey(c.Key), AloneOptions()) != PickAlone {
			continue
		}
		c.HandsMin = 1
		c.Minutes *= times
		for skill, minutes := range c.MinutesBy {
			c.MinutesBy[skill] = minutes * times
		}
		for k, step := range c.Steps {
			if rest, two := strings.CutPrefix(step, together); two {
				c.Steps[k] = strings.ToUpper(rest[:1]) + rest[1:]
			}
		}
		c.care(alone)
		c.Working = append(c.Working, figures.Line{What: "One pair of hands",
			How: measure.FormatNumber(times, 1) + " times the hands' minutes", Result: measure.FormatMinutes(c.Minutes),
			Source: figures.Source{Mark: figures.CommonPractice}})
	}
}
