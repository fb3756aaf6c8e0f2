package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/pwa/address"
)

// EditCardFields are what a lead may change on a card.
func EditCardFields() []string { return []string{"minutes", "hands"} }

// EditCard draws the form by which an owner or a lead gives a card their own minutes and hands.
func EditCard(f Frame, c task.Card, e Editor) g.Node {
	return g.Group{
		Heading(c.Title, "Change this card"),
		EditForm("edit-card", f.at(address.ChangeCard, c.Key), "",
			WrongList(e.Noun, e.State, ""),
			PartOf("Your own",
				"Leave empty for the table's: "+minutes(c.Minutes)+", "+Many(max(1, c.HandsMin), "hand")+".",
				e.all(f)),
			Foot(labelSave, ButtonLink(f.at(address.Card, job.KeyPath(c.Key)), "quiet", g.Text("Cancel")))),
	}
}

// CardExtras are what stands below a card for those who may change it.
func CardExtras(f Frame, c task.Card) g.Node {
	if !f.Edits() {
		return g.Group{}
	}
	return ButtonRow(h.ID("card-extras"),
		ButtonLink(f.at(address.ChangeCard, c.Key), "", Icon("edit"), g.Text("Change time or hands")))
}

// AddedExtras are what stands below a list for those who may write lines of their own onto it.
func AddedExtras(f Frame, list string) g.Node {
	if !f.Edits() {
		return g.Group{}
	}
	label := "Add a card"
	if list == "pack" {
		label = "Add a line"
	}
	return ButtonRow(h.ID("added-extras"),
		ButtonLink(f.at(address.Added)+"?list="+list, "", Icon("plus"), g.Text(label)))
}
