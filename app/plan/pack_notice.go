package plan

import "strings"

// noticeRule packs a notice for the door where allergy was mentioned or children come.
var noticeRule = packRule{family: "paper/latex-notice", bag: "bag/safety", one: "Notice: natural rubber latex",
	need: func(d *Rig) (int, string, *Source) {
		if strings.TrimSpace(d.job.Brief.Allergy) == "" || !d.anyBalloon() {
			return 0, "", nil
		}
		return 1, "the brief speaks of allergy; say at the door that the décor is natural rubber latex", &usual
	}}
