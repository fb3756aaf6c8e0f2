package calc

import (
	"strings"

	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
	"garlandry/calc/stock"
)

const mostListItems = 200

// Weight is a named share, both as typed.
type Weight struct {
	Name  string
	Share float64
}

// Loose is a number of loose balloons of one size.
type Loose struct {
	Count int
	Part  cluster.Part // what the size is inflated to; Duplets is 0
}

// Box is the inside of a car or an opening; LengthMM is 0 for an opening. If litres were typed, only Litres is set.
type Box struct{ LengthMM, WidthMM, HeightMM, Litres float64 }

// items splits a list at semicolons, new lines and commas. A comma between two digits is a decimal comma, unless the
// text after it is a count: 60x11,20x5.
func items(text string) []string {
	var list []string
	start := 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != ';' && text[i] != '\n' && text[i] != ',' {
			continue
		}
		if i < len(text) && text[i] == ',' && i > 0 && i+1 < len(text) && isDigit(text[i-1]) && isDigit(text[i+1]) &&
			!counting(text[i+1:]) {
			continue
		}
		if item := strings.TrimSpace(text[start:i]); item != "" {
			list = append(list, item)
		}
		start = i + 1
	}
	return list
}

// counting reports whether text begins like "20x" or "20 x".
func counting(text string) bool {
	after := strings.TrimLeft(strings.TrimLeft(text, "0123456789"), " ")
	return strings.HasPrefix(after, "x") || strings.HasPrefix(after, "X") || strings.HasPrefix(after, "×") ||
		strings.HasPrefix(after, "*")
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

func refuseList(text, want, why string) error {
	return &measure.Error{Text: text, Want: want, Why: why}
}

var priceMarks = strings.NewReplacer("=", ":", "@", ":", " for ", ":", " at ", ":")

// ReadBags reads bags with their prices as the calculator does: "100:9.90, 50:5.60"
// or "100 for 9.90". Errors are *measure.Error.
func ReadBags(text string) ([]stock.Bag, error) {
	bags, err := readBags(text, measure.Metric)
	if err != nil {
		return nil, err
	}
	return bags.([]stock.Bag), nil
}

// readBags reads "100:9.90, 50:5.60, 25:3.20": how many a bag holds, a colon (or "@", "for", "at"), its price.
func readBags(text string, _ measure.System) (any, error) {
	const want = "bags as count:price, such as 100:9.90, 50:5.60"
	var pieces []string
	plain := priceMarks.Replace(text)
	for _, piece := range strings.FieldsFunc(plain, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		if !strings.Contains(piece, ":") && len(pieces) > 0 {
			pieces[len(pieces)-1] += "," + piece // the decimal comma of a price
			continue
		}
		pieces = append(pieces, piece)
	}
	if len(pieces) == 0 || len(pieces) > stock.MostBagKinds {
		return nil, refuseList(text, want, "one to 100 kinds of bag")
	}
	bags := make([]stock.Bag, len(pieces))
	for i, piece := range pieces {
		holds, price, found := strings.Cut(piece, ":")
		if !found {
			return nil, refuseList(text, want, "no price in "+oneLine(piece))
		}
		count, err := measure.ParseCount(holds)
		if err != nil || count < 1 || count > stock.LargestNeed {
			return nil, refuseList(text, want, "a bag holds 1 to 100000")
		}
		cents, err := measure.ParseMoneyCents(price)
		if err != nil {
			return nil, err
		}
		if cents > stock.LargestPriceCts {
			return nil, refuseList(text, want, "a bag costs at most 1000000")
		}
		bags[i] = stock.Bag{Holds: count, PriceCents: cents}
	}
	return bags, nil
}

var shareMarks = strings.NewReplacer(":", " ", "=", " ", "%", " ", "*", " ", "×", " ")

// readWeights reads "coral 3, sand 2", "coral: 50 %, sand: 50 %", "3, 2, 1" or
// "3:2:1".
func readWeights(text string, _ measure.System) (any, error) {
	const want = "shares such as coral 3, sand 2 or 3, 2, 1"
	var weights []Weight
	named := 0
	for _, piece := range weightPieces(text) {
		if strings.Count(piece, "=")+strings.Count(piece, ":") > 1 {
			return nil, refuseList(text, want, "no comma between the shares")
		}
		fields := strings.Fields(shareMarks.Replace(piece))
		if len(fields) == 0 {
			return nil, refuseList(text, want, "an empty share")
		}
		last := len(fields) - 1
		share, err := measure.ParseNumber(fields[last])
		name := fields[:last]
		if err != nil {
			share, err = measure.ParseNumber(strings.TrimSuffix(fields[0], "x"))
			name = fields[1:]
		}
		if err != nil {
			return nil, refuseList(text, want, "no number in "+oneLine(piece))
		}
		if share < 0 || share > 1e6 {
			return nil, refuseList(text, want, "a share is 0 to 1000000")
		}
		weights = append(weights, Weight{strings.Join(name, " "), share})
		named += min(len(name), 1)
	}
	if named > 0 && named < len(weights) {
		return nil, refuseList(text, want, "a share without a name; where a comma is a decimal one, write semicolons between")
	}
	if len(weights) == 0 || len(weights) > mostListItems {
		return nil, refuseList(text, want, "one to 200 shares")
	}
	return weights, nil
}

func weightPieces(text string) []string {
	plain := strings.Trim(text, " ;,")
	separators := ",;\n"
	if strings.Contains(plain, ";") {
		separators = ";\n"
	}
	if !strings.ContainsAny(plain, separators) && strings.Trim(plain, "0123456789.: ") == "" {
		separators = ": "
	}
	var pieces []string
	for _, piece := range strings.FieldsFunc(plain, func(r rune) bool { return strings.ContainsRune(separators, r) }) {
		pieces = append(pieces, strings.TrimSpace(piece))
	}
	return pieces
}

// readPoints reads "0,0; 1.2,0.8; 2.4,0": across and up, in metres or feet unless a unit is written. Blanks may replace
// the semicolons.
func readPoints(text string, bare measure.System) (any, error) {
	const want = "points as across,up such as 0,0; 1.2,0.8; 2.4,0"
	pieces := strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' })
	if len(pieces) == 1 {
		pieces = strings.Fields(text)
	}
	if len(pieces) < 2 || len(pieces) > mostListItems {
		return nil, refuseList(text, want, "2 to 200 points")
	}
	points := make([]outline.Point, len(pieces))
	for i, piece := range pieces {
		across, up, found := strings.Cut(piece, ",")
		if !found || strings.Contains(up, ",") {
			return nil, refuseList(text, want, "not a pair: "+oneLine(piece))
		}
		x, err := measure.ParseOffsetMM(across, bare)
		if err != nil {
			return nil, err
		}
		y, err := measure.ParseOffsetMM(up, bare)
		if err != nil {
			return nil, err
		}
		points[i] = outline.Point{XMM: x, YMM: y}
	}
	return points, nil
}

var timesMarks = strings.NewReplacer("×", "x", "*", "x", "X", "x", " by ", "x")

// readBalloons reads "120 x 11@10, 40 x 5" or "120 11-inch": the number, then the size and its inflated diameter.
func readBalloons(text string, _ measure.System) (any, error) {
	const want = "balloons as count x size@inches, such as 120 x 11@10, 40 x 5"
	list := items(strings.ReplaceAll(text, "+", ";"))
	if len(list) == 0 || len(list) > mostListItems {
		return nil, refuseList(text, want, "1 to 200 kinds")
	}
	loose := make([]Loose, len(list))
	for i, item := range list {
		count, size, found := strings.Cut(timesMarks.Replace(item), "x")
		if !found {
			count, size, found = strings.Cut(item, " ")
		}
		if !found {
			return nil, refuseList(text, want, "no size in "+oneLine(item))
		}
		n, err := measure.ParseCount(count)
		if err != nil || n > stock.LargestNeed {
			return nil, refuseList(text, want, "a count is 0 to 100000")
		}
		part, err := cluster.ParsePart(strings.TrimSpace(size))
		if err != nil {
			return nil, err
		}
		part.Duplets = 1
		if err := (cluster.Recipe{part}).Check(); err != nil {
			return nil, err
		}
		part.Duplets = 0
		loose[i] = Loose{n, part}
	}
	return loose, nil
}

// readBox reads "140 x 100 x 80 cm" (length, width, height) or "90 x 70 cm" (width, height). A unit at the end applies
// to earlier numbers without a unit. "1200 l" gives litres alone.
func readBox(text string, bare measure.System) (any, error) {
	const want = "sides such as 140 x 100 x 80 cm or 90 x 70 cm"
	plain := timesMarks.Replace(trimmedLower(text))
	pieces := strings.Split(plain, "x")
	if litres, err := measure.ParseVolumeL(text, bare); err == nil && len(pieces) == 1 && hasUnit(plain) {
		return Box{Litres: litres}, nil
	}
	if len(pieces) != 2 && len(pieces) != 3 {
		return nil, refuseList(text, want, "two or three sides")
	}
	last := strings.TrimSpace(pieces[len(pieces)-1])
	unit := strings.TrimLeft(last, "0123456789., ")
	if strings.ContainsAny(unit, "0123456789") {
		unit = "" // "4 ft 6 in" is a side with its own units
	}
	sides, bareSides := make([]float64, len(pieces)), 0
	for i, piece := range pieces {
		piece = strings.TrimSpace(piece)
		if piece != "" && strings.Trim(piece, "0123456789., ") == "" {
			piece += unit
			bareSides++
		}
		mm, err := measure.ParseSmallLengthMM(piece, bare)
		if err != nil {
			return nil, err
		}
		if mm < 10 || mm > 20000 {
			return nil, refuseList(text, want, "a side is too short or too long")
		}
		sides[i] = mm
	}
	if bareSides > 0 && bareSides < len(sides)-1 || bareSides == len(sides)-1 && unit == "" {
		return nil, refuseList(text, want, "a side without its unit")
	}
	if len(sides) == 2 {
		return Box{WidthMM: sides[0], HeightMM: sides[1]}, nil
	}
	return Box{LengthMM: sides[0], WidthMM: sides[1], HeightMM: sides[2]}, nil
}
