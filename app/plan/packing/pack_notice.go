package packing

import (
	"strings"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// noticeRule packs a notice for the door where allergy was mentioned or children come.
var noticeRule = rule{family: "paper/latex-notice", bag: "bag/safety", one: "Notice: natural rubber latex",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		if strings.TrimSpace(d.Job.Brief.Allergy) == "" || !d.AnyBalloon() {
			return 0, "", nil
		}
		return 1, "the brief speaks of allergy; say at the door that the décor is natural rubber latex", &figures.Usual
	}}
