package view

import (
	"slices"

	g "maragu.dev/gomponents"

	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// briefParts are the parts of the brief's form, in the order one asks a client.
func briefParts() []briefPart {
	return []briefPart{
		{"What and where", "", []string{"title", "date", "venue", "place"}},
		{"The window", "All work on site has to fit in here.",
			[]string{"in", "doors", "down"}},
		{"The venue", "", []string{"floor", "fixing", "power", "room_width_mm", "room_height_mm"}},
		{"The way in", "Unloading minutes follow from it.",
			[]string{"travel", "drive_min", "parking", "carry_mm", "flights", "lift_bags", "trolley", "door_mm"}},
		{"People", "", []string{"allergy", "children", "notes"}},
		{weatherPart, "Outdoors it rules weights, stakes and shade.", []string{"wind_mps", "gust_mps", "sun", "rain"}},
		{"Air, height, helium", "Warmth and altitude change the size of balloons.",
			[]string{"prep_c", "venue_c", "altitude_mm", "until"}},
		{"How to count", "", []string{"units", "zone", "spare_pct", "sure_pct"}},
	}
}

// weatherPart is the part that matters outdoors only.
const weatherPart = "Weather"

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

// wrongIn reports whether something is wrong with one of the fields.
func wrongIn(state form.State, fields []string) bool {
	return slices.ContainsFunc(fields, func(name string) bool { return state.Errors[name] != "" })
}

// EditBrief draws the brief's form with the client's contact, for the owner.
func EditBrief(f Frame, brief, contact Editor) g.Node {
	parts := make([]g.Node, 0, len(briefParts()))
	for _, part := range briefParts() {
		if part.title == weatherPart && brief.State.Get("place") == "indoors" {
			parts = append(parts, Folded("brief-weather", "Weather, if you are outdoors", wrongIn(brief.State, part.fields),
				brief.fields(f, part.fields...)))
			continue
		}
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
