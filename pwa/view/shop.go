package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// BagsInput returns the name of the input for the bag sizes and prices of what is bought.
func BagsInput(id string) string { return "bags." + id }

// Shop draws what to buy, in bags. The owner also sees what it costs and enters bag sizes and prices.
func Shop(f Frame, j job.Job, lines []packing.ShopLine, state form.State) g.Node {
	if len(lines) == 0 {
		return g.Group{
			jobHeading(j, "Shop"),
			Empty("Nothing to buy yet", "Add a piece, and what it takes is listed here, in bags.", "",
				g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), Primary, Icon("plus"), g.Text(labelAddPiece)))),
		}
	}
	s := shopPage{f, j, state}
	body, before := g.Group{}, &packing.ShopLine{}
	for i := range lines {
		body = append(body, s.head(&lines[i], before), s.line(&lines[i]))
		before = &lines[i]
	}
	bought := 0
	for i := range lines {
		if lines[i].Buy == 0 {
			bought++
		}
	}
	return g.Group{
		jobHeading(j, "Shop", PrintButton()),
		h.Div(h.Class("progressline"),
			Big(strconv.Itoa(bought), "of "+strconv.Itoa(len(lines))+" lines bought"),
			meter(bought, len(lines))),
		s.total(lines),
		g.If(s.Owns(), g.Group{figuresWrong(state), Lead("Bag sizes and prices, e.g. 100 for 9.90, 50 for 5.60")}),
		Panel("", "", body),
		g.If(s.Owns(), EditForm(shopForm, f.at(address.Shop), "", Foot(labelSave))),
	}
}

// shopForm is the id of the form for bag sizes and prices. Its inputs stand among the ticks, which are forms too.
const shopForm = "shop"

type shopPage struct {
	Frame
	job   job.Job
	state form.State
}

// total draws what all of it costs. Only the owner sees it.
func (s *shopPage) total(lines []packing.ShopLine) g.Node {
	if !s.Owns() {
		return nil
	}
	cents, unpriced := packing.Cost(lines)
	if unpriced == len(lines) || cents == 0 && unpriced > 0 {
		return h.P(g.Text("No prices yet. Only you see prices."))
	}
	words := "in all"
	if unpriced > 0 {
		words = "so far; " + Many(unpriced, "line") + " without a price"
	}
	return Big(measure.FormatMoney(cents), words)
}

// head draws a heading before the first line of each size, and before the supplies.
func (s *shopPage) head(l, before *packing.ShopLine) g.Node {
	size, balloon := packing.SizeOf(l.ID)
	last, _ := packing.SizeOf(before.ID)
	switch {
	case balloon && size != last:
		name := strings.TrimPrefix(size, "latex/") + "-inch"
		return g.Group{h.H2(h.Class("sizehead"), g.Text(name)), s.bags(size, "Your bags of "+name, l)}
	case !balloon && (last != "" || before.ID == ""):
		return h.H2(h.Class("sizehead"), g.Text("Ties and supplies"))
	}
	return nil
}

func (s *shopPage) line(l *packing.ShopLine) g.Node {
	words, name := l.Words(), l.Name
	switch {
	case words != "" || l.Buy == 0:
	case l.Kit:
		words = "Hire, borrow or buy"
	default:
		words = l.Unit
	}
	cost := ""
	if l.Priced && l.Buy > 0 && s.Owns() {
		cost = measure.FormatMoney(l.Cents)
	}
	label := "Sold in"
	if l.Colour != nil {
		name = l.Colour.Name
		label = "Bags of " + l.Colour.Name + ", if they differ"
	}
	return h.Div(h.ID(domID("row-shop", l.ID)), h.Class("tickrow shopline"), g.Attr("data-row"),
		g.If(l.Buy == 0, g.Attr("data-on")),
		boughtTick(s.Frame, l),
		h.Details(h.Class("count some"), h.ID(domID("shop", l.ID)),
			g.If(s.state.Errors[BagsInput(l.ID)] != "", g.Attr("open")),
			h.Summary(h.B(h.Class("n"), g.Text(number(l.Buy))),
				h.Span(h.Class("rowtext"),
					h.Span(h.Class("rowtitle colourname"),
						g.Iff(l.Colour != nil, func() g.Node { return Swatch(*l.Colour) }),
						g.Text(name)),
					g.If(l.Got > 0, Small("Bought "+number(l.Got)+" of "+number(l.Need))),
					g.If(words != "", Small(words))),
				g.If(cost != "", RowFigure(cost, "")),
				Icon("open")),
			h.Div(h.Class("opened"), Soft(capital(l.Reason)), onlySome(s.Frame, l.Line, "buy", "are bought", l.Got),
				s.bags(l.ID, label, l))))
}

// boughtTick draws the tick that says that all of a line is bought. It is no button where all is packed already, or
// ticked as together: that is taken back where it was ticked.
func boughtTick(f Frame, l *packing.ShopLine) g.Node {
	label, n := "Bought: "+l.Name, l.Need
	switch {
	case l.There:
		return h.Span(h.Class("ringlink"), Icon("tick"), ForReaders(label))
	case l.Buy == 0:
		n = 0
	}
	return TickButton(f, l.Buy == 0, Action{Act: "buy", Entity: l.Key, N: Amount(n)}, label)
}

// bags draws the owner's input for bag sizes and prices.
func (s *shopPage) bags(id, label string, l *packing.ShopLine) g.Node {
	if !s.Owns() {
		return nil
	}
	key := BagsInput(id)
	wrong, dom := s.state.Errors[key], domID("f", key)
	hint := "1 for 4.50"
	if len(l.Offers) > 0 {
		hint = packing.BagsText(l.Offers, l.Priced)
	}
	stands := orElse(s.job.Prices[id], s.job.Choices[packing.BagsOf+id])
	typed := stands
	if s.state.Values.Has(key) {
		typed, stands = s.state.Get(key), s.state.Get(form.Was(key))
	}
	return FieldBox(dom, label, wrong,
		h.Input(h.ID(dom), h.Name(key), h.Type("text"), h.AutoComplete("off"), h.Placeholder(hint), h.Value(typed),
			g.Attr("form", shopForm), invalid(dom, wrong)),
		h.Input(h.Type("hidden"), h.Name(form.Was(key)), h.Value(stands), g.Attr("form", shopForm)))
}
