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

func (r *request) briefEditors(brief, contact form.State) (view.Editor, view.Editor) {
	return view.Editor{Noun: nounOf("brief"), Fields: view.BriefFields(), State: brief},
		view.Editor{Noun: nounOf(contactEntity), Fields: view.ContactFields(), State: contact, Prefix: "contact."}
}

func brief(r *request) *Reply {
	b := form.Fill(nounOf("brief"), r.job.State, "brief", view.BriefFields(), r.frame.Units)
	c := form.Fill(nounOf(contactEntity), r.job.Private, contactEntity, view.ContactFields(), r.frame.Units)
	briefing, contact := r.briefEditors(b, c)
	return r.draw("Brief", view.EditBrief(r.frame, briefing, contact))
}

func saveBrief(r *request) *Reply {
	units := r.frame.Units
	changes, b := form.Entity(nounOf("brief"), "brief", view.BriefFields(), r.in, units)
	private, c := form.Entity(nounOf(contactEntity), contactEntity, view.ContactFields(), r.in.Within("contact."), units)
	checked := valid(nounOf("brief"), "brief", view.BriefFields(), r.in, units)
	b = b.Together(job.Try(r.job, checked).Brief.CheckTogether(), view.BriefFields())
	r.checkZone(&b)
	if !b.OK() || !c.OK() {
		briefing, contact := r.briefEditors(b, c)
		return r.invalid("Brief", view.EditBrief(r.frame, briefing, contact))
	}
	return r.save(append(changes, private...), r.at(address.Job), "The brief is saved.")
}

// valid returns the changes of the fields without errors of their own, so that they can be checked together.
func valid(n *job.Noun, entity string, fields []string, v form.Values, units measure.System) []job.Change {
	var changes []job.Change
	for _, name := range fields {
		change, _ := form.Entity(n, entity, []string{name}, v, units)
		changes = append(changes, change...)
	}
	return changes
}

// unitsOf reads the units picked on a form, fallback if there are none.
func unitsOf(v form.Values, fallback measure.System) measure.System {
	switch measure.System(v.Get("units")) {
	case measure.Metric:
		return measure.Metric
	case measure.Imperial:
		return measure.Imperial
	}
	return fallback
}
