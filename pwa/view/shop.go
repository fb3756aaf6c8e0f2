package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// BagsInput names the input for what bags hold and cost, by what is bought.
func BagsInput(id string) string { return "bags." + id }

// Shop draws what to buy in which bags. The owner also sees what it costs and writes down what bags hold and cost.
func Shop(f Frame, j job.Job, lines []packing.ShopLine, state form.State) g.Node {
	if len(lines) == 0 {
		return g.Group{
			Heading(untitled(j.Brief.Title), "Shop"),
			Empty("Nothing to buy yet", "What the pieces take stands here, in the bags it is sold in.", "",
				g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", Icon("plus"), g.Text("Add a piece")))),
		}
	}
	s := shopPage{f, j, state}
	body, before := g.Group{}, &packing.ShopLine{}
	for i := range lines {
		body = append(body, s.head(&lines[i], before), s.line(&lines[i]))
		before = &lines[i]
	}
	list := h.Section(h.Class("panel shoplist"), body)
	if f.Owns() {
		list = EditForm("shop", f.at(address.Shop), "", figuresWrong(state), list, Foot("Save these"))
	}
	return g.Group{
		Heading(untitled(j.Brief.Title), "Shop", PrintButton()),
		s.total(lines),
		Lead(pick(s.Owns(), "Write what your bags hold and cost, such as 100 for 9.90, 50 for 5.60, or 100, 50 without prices. ",
			"") + "What is packed already counts as there."),
		list,
	}
}

type shopPage struct {
	Frame
	job   job.Job
	state form.State
}

// total is what all of it costs, for the owner alone.
func (s *shopPage) total(lines []packing.ShopLine) g.Node {
	if !s.Owns() {
		return nil
	}
	cents, unpriced := packing.Cost(lines)
	if unpriced == len(lines) || cents == 0 && unpriced > 0 {
		return h.P(g.Text("No prices yet. Only you see them."))
	}
	words := "altogether"
	if unpriced > 0 {
		words = "without " + Many(unpriced, "line") + " that have no price yet"
	}
	return Big(measure.FormatMoney(cents), words)
}

// head begins the lines of another size, or those that are no balloons.
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
	if l.Buy == 0 {
		words = "all there"
	} else if words == "" {
		words = l.Unit
	}
	cost := ""
	if l.Priced && l.Buy > 0 && s.Owns() {
		cost = measure.FormatMoney(l.Cents)
	}
	label := "What it is sold in"
	if l.Colour != nil {
		name = l.Colour.Name
		label = "Bags of " + l.Colour.Name + " alone, if they differ"
	}
	return h.Details(h.Class("count"), h.ID(domID("shop", l.ID)),
		g.If(s.state.Errors[BagsInput(l.ID)] != "", g.Attr("open")),
		h.Summary(h.B(h.Class("n"), g.Text(number(l.Buy))),
			h.Span(h.Class("rowtext"),
				h.Span(h.Class("rowtitle colourname"),
					g.Iff(l.Colour != nil, func() g.Node { return Swatch(*l.Colour) }),
					g.Text(name)),
				g.If(words != "", Small(words))),
			g.If(cost != "", h.Span(h.Class("rowfigure"), g.Text(cost))),
			Icon("open")),
		h.Div(h.Class("opened"), Soft(capital(l.Reason)), s.bags(l.ID, label, l)))
}

// bags asks what bags hold and cost, of the owner.
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
	return h.Div(h.Class("field"), bad(wrong),
		h.Label(h.For(dom), g.Text(label)),
		h.Input(h.ID(dom), h.Name(key), h.Type("text"), h.AutoComplete("off"), h.Placeholder(hint), h.Value(typed),
			invalid(dom, wrong)),
		Hidden(form.Was(key), stands),
		wrongLine(dom, wrong))
}
