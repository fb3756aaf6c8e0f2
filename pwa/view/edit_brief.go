package view

import (
	g "maragu.dev/gomponents"

	"garlandry/pwa/address"
)

// briefParts are the parts of the brief's form, in the order one asks a client.
func briefParts() []briefPart {
	return []briefPart{
		{"What and where", "", []string{"title", "date", "venue", "place"}},
		{"The window", "All work on site has to fit in here.",
			[]string{"in", "doors", "until", "down"}},
		{"The venue", "", []string{"floor", "fixing", "power"}},
		{"The way in", "Unloading minutes follow from it.",
			[]string{"travel", "drive_min", "parking", "carry_mm", "flights", "lift_bags", "trolley", "door_mm"}},
		{"People", "", []string{"allergy", "children", "notes"}},
		{"Weather", "Outdoors it rules weights, stakes and shade.", []string{"wind_mps", "gust_mps", "sun", "rain"}},
		{"Air and height", "Warmth and altitude change the size of balloons.", []string{"prep_c", "venue_c", "altitude_mm"}},
		{"How to count", "", []string{"units", "zone", "spare_pct", "sure_pct"}},
	}
}

type briefPart struct {
	title, lead string
	fields      []string
}

// BriefFields are the fields of the brief's form.
func BriefFields() []string {
	var names []string
	for _, part := range briefParts() {
		names = append(names, part.fields...)
	}
	return names
}

// ContactFields are the fields of the client's contact.
func ContactFields() []string { return []string{"name", "phone", "email", "agreed"} }

// EditBrief draws the brief's form with the client's contact, for the owner.
func EditBrief(f Frame, brief, contact Editor) g.Node {
	parts := make([]g.Node, 0, len(briefParts()))
	for _, part := range briefParts() {
		parts = append(parts, PartOf(part.title, part.lead, brief.fields(f, part.fields...)))
	}
	return g.Group{
		Heading("", "Brief"),
		EditForm("edit-brief", f.at(address.Brief), "",
			WrongList(brief.Noun, brief.State, brief.Prefix),
			g.If(!contact.State.OK(), WrongList(contact.Noun, contact.State, contact.Prefix)),
			g.Group(parts),
			PartOf("Client", "Only you see this.", contact.all(f)),
			Foot("Save the brief")),
	}
}
