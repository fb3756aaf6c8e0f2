package task

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
)

// lookRule adds the cards for walking the room before anything is put up.
var lookRule = rule{family: FamilyLook, place: Site, title: "Walk the room first", cards: func(d *draft, r *rule) {
	if len(d.Pieces) == 0 {
		return
	}
	c := r.card(d, "", "")
	c.Steps = []string{
		"Find the ways out, the socket, the water, and who has the keys.",
		"Measure where each piece goes and mark it with tape on the floor.",
		"Ask what may be stuck or tied to: " + d.fixingWords() + ".",
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
		return "the brief says removable hooks and tape"
	case "tie":
		return "the brief says tying to rails and posts"
	case "any":
		return "the brief says anything"
	}
	return "the brief says nothing on walls"
}

// BriefWords is what the brief notes, as one paragraph; empty if it notes nothing.
func BriefWords(b *job.Brief) string {
	words := strings.Join(strings.Fields(b.Notes), " ")
	if words == "" {
		return ""
	}
	return phrase.Sentence(words)
}
