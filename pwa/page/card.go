package page

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// cardNoun is what a lead may change on a card, as a noun for its form.
func cardNoun() *job.Noun {
	return &job.Noun{Name: "card", Label: "Card", Fields: job.ProgressFields()}
}

func (a *ask) cardEditor(state form.State) view.Editor {
	return view.Editor{Noun: cardNoun(), Fields: view.EditCardFields(), State: state}
}

func changeCard(a *ask) *Reply {
	c, known := view.FindCard(a.plan(), a.address.Item)
	if !known {
		return a.notFound()
	}
	state := form.Fill(cardNoun(), a.job.State, c.Key, view.EditCardFields(), a.frame.Units)
	return a.draw(c.Title, view.EditCard(a.frame, c, a.cardEditor(state)))
}

func saveCard(a *ask) *Reply {
	c, known := view.FindCard(a.plan(), a.address.Item)
	if !known {
		return a.notFound()
	}
	changes, state := form.Entity(cardNoun(), c.Key, view.EditCardFields(), a.in, a.frame.Units)
	if !state.OK() {
		return a.wrong(c.Title, view.EditCard(a.frame, c, a.cardEditor(state)))
	}
	return a.wrote(changes, a.at(address.Card, job.KeyPath(c.Key)), "Saved.")
}

// noteAgain draws the card with a note that could not be taken, so that it is not lost.
func (a *ask) noteAgain(d deed, why string) *Reply {
	a.alert = why + "."
	p := a.plan()
	c, known := view.FindCard(p, d.entity)
	if !known {
		return a.again(a.alert)
	}
	c.Note, a.frame.Path = a.in.Get(view.FieldText), a.at(address.Card, job.KeyPath(c.Key))
	return a.wrong(c.Title, g.Group{view.CardPage(a.frame, a.job, p, c), view.CardExtras(a.frame, c)})
}
