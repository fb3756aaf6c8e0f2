package page

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// cardNoun returns what a lead can change on a card, as a noun for its form.
func cardNoun() *job.Noun {
	return &job.Noun{Name: "card", Label: "Card", Fields: job.ProgressFields()}
}

func (r *request) cardEditor(state form.State) view.Editor {
	return view.Editor{Noun: cardNoun(), Fields: view.EditCardFields(), State: state}
}

func changeCard(r *request) *Reply {
	c, known := view.FindCard(r.plan(), r.address.Item)
	if !known {
		return r.notFound()
	}
	state := form.Fill(cardNoun(), r.job.State, c.Key, view.EditCardFields(), r.frame.Units)
	return r.draw(c.Title, view.EditCard(r.frame, c, r.cardEditor(state)))
}

func saveCard(r *request) *Reply {
	c, known := view.FindCard(r.plan(), r.address.Item)
	if !known {
		return r.notFound()
	}
	changes, state := form.Entity(cardNoun(), c.Key, view.EditCardFields(), r.in, r.frame.Units)
	for _, change := range changes {
		if change.Field == "minutes" && string(change.Value) == "0" {
			state.Fail("minutes", "Every card takes some time. Leave it empty for the table's.")
		}
	}
	if !state.OK() {
		return r.invalid(c.Title, view.EditCard(r.frame, c, r.cardEditor(state)))
	}
	return r.save(changes, r.at(address.Card, job.KeyPath(c.Key)), "Saved.")
}

// noteAgain draws the card again with a note that was not saved, so that the text is not lost.
func (r *request) noteAgain(d action, why string) *Reply {
	r.alert = why + "."
	p := r.plan()
	c, known := view.FindCard(p, d.entity)
	if !known {
		return r.rejected(r.alert)
	}
	c.Note, r.frame.Path = r.in.Get(view.FieldText), r.at(address.Card, job.KeyPath(c.Key))
	return r.invalid(c.Title, g.Group{view.CardPage(r.frame, r.job, p, c), view.CardExtras(r.frame, c)})
}
