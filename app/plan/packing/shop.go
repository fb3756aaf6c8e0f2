package packing

import (
	"errors"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/calc"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/calc/stock"
)

// BagsOf is the prefix of the choice that holds the bag sizes of an id like [ShopLine.ID]. The whole crew may see it.
// Prices are for the owner alone, see [job.Job.Prices].
const BagsOf = "bags/"

// ShopLine is one thing to buy, in the cheapest bags that cover it. Its need is what the plan takes in all, spares
// included, whether it travels blown up or flat.
type ShopLine struct {
	Line
	ID     string      // of its bags: "latex/11/coral", "tie/260", "supply/shine-spray"
	From   string      // the id whose bags the owner set: the line's own or its size's; "": the usual bags
	Got    int         // ticked as bought, packed, or ticked on the card for getting the balloons together
	Buy    int         // still to get
	There  bool        // all of it is packed or ticked as together, whatever is ticked as bought
	Offers []stock.Bag // what its bags hold; with prices if Priced. Empty: it is sold singly
	Bags   []int       // how many of each
	Left   int         // left over
	Priced bool
	Cents  int // what it costs, if Priced
}

// Shop lists what to get, in the order of the pack list: balloons, ties, supplies, helium, and the stands that the kit
// lacks. What is not needed is left out. [stock.Bags] chooses the bags: the cheapest where the owner's prices are
// known, else with the fewest left over.
func Shop(j job.Job, balloons []count.BalloonLine, pack []Bag) []ShopLine {
	var lines []ShopLine
	together := Together(j)
	add := func(line Line) {
		l := ShopLine{Line: line, ID: job.KeyPath(line.Key)}
		there := max(j.Packed(l.Key), together[l.Key])
		l.Got, l.There = max(j.Bought(l.Key), there), there >= l.Need
		l.Buy = max(0, l.Need-l.Got)
		l.offers(j)
		l.choose()
		lines = append(lines, l)
	}
	for i := range balloons {
		add(Latex(&balloons[i]))
	}
	for _, bag := range pack {
		for _, line := range bag.Lines {
			id := job.KeyPath(line.Key)
			if _, latex := SizeOf(id); !latex && !line.Unneeded && line.Need > 0 && Bought(id) {
				add(line)
			}
		}
	}
	return lines
}

// Bought reports whether an id is something to get for the job: a balloon, tie or supply, which are bought, or helium
// or a stand, which may also be hired or borrowed.
func Bought(id string) bool {
	family, _, _ := strings.Cut(id, "/")
	switch id {
	case "helium/ribbon", "helium/gel", "helium/cylinder", "tool/pole", "tool/digit-frame", "tool/wall-frame":
		return true
	}
	return family == "latex" || family == "tie" || family == "supply"
}

// Cost adds up the cents of lines and counts the lines to buy that have no price.
func Cost(lines []ShopLine) (cents, unpriced int) {
	for i := range lines {
		switch l := &lines[i]; {
		case l.Priced:
			cents += l.Cents
		case l.Buy > 0:
			unpriced++
		}
	}
	return cents, unpriced
}

// SizeOf returns the id for all colours of a balloon's size. It reports false for anything but balloons.
func SizeOf(id string) (string, bool) {
	if !strings.HasPrefix(id, "latex/") {
		return "", false
	}
	return id[:strings.LastIndexByte(id, '/')], true
}

// offers sets the bags of a line: the owner's for it, else the owner's for its size, else the usual ones.
func (l *ShopLine) offers(j job.Job) {
	size, balloon := SizeOf(l.ID)
	for _, id := range []string{l.ID, size} {
		text := j.Prices[id]
		if text == "" {
			text = j.Choices[BagsOf+id]
		}
		if bags, priced, err := ReadBags(text); text != "" && err == nil {
			l.Offers, l.Priced, l.From = bags, priced, id
			return
		}
	}
	nominal, _ := strconv.Atoi(strings.TrimPrefix(size, "latex/"))
	if !balloon && l.ID == "tie/260" {
		nominal = 260
	}
	usual, _ := latex.Find(nominal)
	for _, holds := range usual.BagsOf {
		l.Offers = append(l.Offers, stock.Bag{Holds: holds, PriceCents: holds})
	}
}

func (l *ShopLine) choose() {
	l.Bags = make([]int, len(l.Offers))
	bought, err := stock.Bags(min(l.Buy, stock.LargestNeed), 0, l.Offers)
	if err != nil || l.Buy > stock.LargestNeed {
		l.Priced = false
		return
	}
	l.Bags, l.Left = bought.Counts, bought.Left
	if l.Priced {
		l.Cents = bought.CostCents
	}
}

// Words says what to buy: "2 bags of 100 and 1 bag of 50, 12 left over". It returns "" for what is sold singly.
func (l ShopLine) Words() string {
	var bags []string
	for i := len(l.Offers) - 1; i >= 0; i-- {
		at := i
		if l.From != "" {
			at = len(l.Offers) - 1 - i // as the owner wrote them
		}
		if n := l.Bags[at]; n > 0 {
			bags = append(bags, phrase.Count(n, "bag")+" of "+strconv.Itoa(l.Offers[at].Holds))
		}
	}
	if len(bags) == 0 || len(l.Offers) == 1 && l.Offers[0].Holds == 1 {
		return ""
	}
	return strings.Join(bags, " and ") + ", " + strconv.Itoa(l.Left) + " left over"
}

// ReadBags reads what bags hold and cost, as a person writes it: "100 for 9.90, 50 for 5.60", or "100, 50" without
// prices. Without prices a bag costs a cent for each thing in it, so that the fewest left over are cheapest.
func ReadBags(text string) (bags []stock.Bag, priced bool, err error) {
	if strings.ContainsAny(text, ":@=") || strings.Contains(text, " for ") || strings.Contains(text, " at ") {
		bags, err = calc.ReadBags(text)
		return bags, true, err
	}
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		holds, err := measure.ParseCount(part)
		if err != nil || holds < 1 || holds > stock.LargestNeed || len(bags) == stock.MostBagKinds {
			return nil, false, errBags
		}
		bags = append(bags, stock.Bag{Holds: holds, PriceCents: holds})
	}
	if len(bags) == 0 {
		return nil, false, errBags
	}
	return bags, false, nil
}

var errBags = errors.New("write bag sizes and prices, e.g. 100 for 9.90, 50 for 5.60; a bag holds 1 to 100000")

// BagsText writes bags as [ReadBags] reads them.
func BagsText(bags []stock.Bag, priced bool) string {
	text := ""
	for i := range bags {
		if i > 0 {
			text += ", "
		}
		text += strconv.Itoa(bags[i].Holds)
		if priced {
			text += " for " + measure.FormatMoney(bags[i].PriceCents)
		}
	}
	return text
}
