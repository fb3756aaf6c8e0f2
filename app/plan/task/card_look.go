package task

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
)

// lookRule adds the card for walking the room before anything goes up.
var lookRule = rule{family: FamilyLook, place: Site, title: "Walk the room first", cards: func(d *draft, r *rule) {
	if len(d.Pieces) == 0 {
		return
	}
	c := r.card(d, "", "")
	c.Steps = []string{
		"Find the exits, the socket and the water. Ask who has the keys.",
		"Measure where each piece goes and mark it with tape on the floor.",
		"Ask what you may tape or tie to: " + d.fixingWords() + ".",
	}
	if notes := BriefWords(&d.Job.Brief); notes != "" {
		c.Steps = append(c.Steps, "From the brief: "+notes)
	}
	c.takes(d.effort(Site, "look", 1))
	c.After = []Ref{FamilyLoad.Only()}
	c.care(exits)
}}

func (d *draft) fixingWords() string {
	switch d.Job.Brief.Fixing {
	case "removable":
		return "the brief allows removable hooks and tape"
	case "tie":
		return "the brief allows tying to rails and posts"
	case "any":
		return "the brief allows anything"
	}
	return "the brief allows nothing on walls"
}

// BriefWords returns the notes of the brief as one paragraph; "" if there are none.
func BriefWords(b *job.Brief) string {
	words := strings.Join(strings.Fields(b.Notes), " ")
	if words == "" {
		return ""
	}
	return phrase.Sentence(words)
}
