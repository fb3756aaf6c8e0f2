package view

import (
	g "maragu.dev/gomponents"
)

// FieldInstead says that the owner's phone shall be a helper's from now on.
const FieldInstead = "instead"

// JoinInstead draws the question that stands before an owner's phone becomes a helper's: most who open a helper's link
// there only wanted to see where it leads.
func JoinInstead(f Frame, typed JoinForm, token string) g.Node {
	return el(`div class="narrow"`,
		Heading("This phone is let in as the owner", "This link is for a helper"),
		Panel("", "",
			txt("p", "Open the link on the helper's own phone. Nothing was changed here, and the link still works."),
			el("p", el(`a class="plainlink" href="/"`, Icon("back"), g.Text("Back to my jobs")))),
		el(`form method="post" action="/j" id="join-instead" data-server class="panel"`,
			txt("p", "Or lend this phone to the helper: it then shows that one job, without prices and contacts, until you open an owner link here again. "+
				"Get one first, from Share on your other phone or from the server. What you did here and is not shared yet stays on this phone till then."),
			Hidden(FieldName, typed.Name), Hidden(FieldToken, token), Hidden(FieldInstead, "yes"),
			txt(`button type="submit" class="quiet"`, "Make this the helper's phone")))
}
