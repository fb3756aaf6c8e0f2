package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// FieldInstead says that the owner's phone shall be a helper's from now on.
const FieldInstead = "instead"

// JoinInstead draws the question that stands before an owner's phone becomes a helper's: most who open a helper's link
// there only wanted to see where it leads.
func JoinInstead(f Frame, typed JoinForm, token string) g.Node {
	return Narrow(Heading("This phone is let in as the owner", "This link is for a helper"),
		Panel("", "",
			h.P(g.Text("Open the link on the helper's own phone. Nothing was changed here, and the link still works.")),
			h.P(PlainLink(address.Home.Path(), "back", "Back to my jobs"))),
		PostForm(ByServer, "join-instead", address.Join.Path(), h.Class("panel"),
			h.P(g.Text("Or lend this phone to the helper: it then shows that one job, without prices and contacts, until you open an owner link here again. Get one first, from Share on your other phone or from the server. What you did here and is not shared yet stays on this phone till then.")),
			Hidden(FieldName, typed.Name),
			Hidden(FieldToken, token),
			Hidden(FieldInstead, "yes"),
			Submit(Quiet, g.Text("Make this the helper's phone"))))
}
