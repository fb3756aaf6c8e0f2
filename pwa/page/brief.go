package page

import (
	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

const contactEntity = "own/contact"

func nounOf(entity string) *job.Noun {
	n, _ := job.FindNoun(entity)
	return n
}

func (a *ask) briefEditors(brief, contact form.State) (view.Editor, view.Editor) {
	return view.Editor{Noun: nounOf("brief"), Fields: view.BriefFields(), State: brief},
		view.Editor{Noun: nounOf(contactEntity), Fields: view.ContactFields(), State: contact, Prefix: "contact."}
}

func brief(a *ask) *Reply {
	b := form.Fill(nounOf("brief"), a.job.State, "brief", view.BriefFields(), a.frame.Units)
	c := form.Fill(nounOf(contactEntity), a.job.Private, contactEntity, view.ContactFields(), a.frame.Units)
	briefing, contact := a.briefEditors(b, c)
	return a.draw("Brief", view.EditBrief(a.frame, briefing, contact))
}

func saveBrief(a *ask) *Reply {
	units := a.frame.Units
	changes, b := form.Entity(nounOf("brief"), "brief", view.BriefFields(), a.in, units)
	private, c := form.Entity(nounOf(contactEntity), contactEntity, view.ContactFields(), a.in.Within("contact."), units)
	sound := valid(nounOf("brief"), "brief", view.BriefFields(), a.in, units)
	b = b.Together(form.Try(a.job, sound).Brief.CheckTogether(), view.BriefFields())
	a.checkZone(&b)
	if !b.OK() || !c.OK() {
		briefing, contact := a.briefEditors(b, c)
		return a.wrong("Brief", view.EditBrief(a.frame, briefing, contact))
	}
	return a.wrote(append(changes, private...), a.at(address.Job), "The brief is saved.")
}

// valid gives the changes of those fields that have nothing wrong with them, so that what does not go together is said
// beside what is wrong on its own.
func valid(n *job.Noun, entity string, fields []string, v form.Values, units measure.System) []job.Change {
	var changes []job.Change
	for _, name := range fields {
		sound, _ := form.Entity(n, entity, []string{name}, v, units)
		changes = append(changes, sound...)
	}
	return changes
}

// unitsOf reads the units picked on a form; fallback if it does not say.
func unitsOf(v form.Values, fallback measure.System) measure.System {
	switch measure.System(v.Get("units")) {
	case measure.Metric:
		return measure.Metric
	case measure.Imperial:
		return measure.Imperial
	}
	return fallback
}
