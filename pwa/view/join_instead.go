package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// FieldInstead is the field that turns an owner's phone into a helper's.
const FieldInstead = "instead"

// JoinInstead asks whether an owner's phone shall become a helper's. Most owners who open a helper's link only want to
// see where it leads.
func JoinInstead(f Frame, typed JoinForm, token string) g.Node {
	return Narrow(Heading("This is the owner’s phone", "This link is for a helper"),
		Panel("", "",
			h.P(g.Text("Open it on the helper’s own phone. It still works, and nothing was changed here.")),
			h.P(PlainLink(address.Home.Path(), "back", "Back to my jobs"))),
		FormPanel("join-instead", address.Join.Path(),
			h.P(g.Text("Or lend the helper this phone. It then shows that one job, without prices and contacts. "+
				"To get back in you need an owner link: make one first, under Share on another device. "+
				"What you have not shared yet waits here until then.")),
			Hidden(FieldName, typed.Name),
			Hidden(FieldToken, token),
			Hidden(FieldInstead, "yes"),
			Submit(Quiet, g.Text("Make this the helper’s phone"))))
}
