package calc

import (
	"strings"

	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// outOfRange is the error for a number outside its input's range.
type outOfRange struct{}

func (outOfRange) Error() string { return "out of range" }

// readers holds the parsers of kinds that are not a single number.
var readers = [...]struct {
	kind Kind
	read func(text string, bare measure.System) (any, error)
}{
	{KindRecipe, readRecipe},
	{KindFlag, readFlag},
	{KindText, readText},
	{KindBags, readBags},
	{KindWeights, readWeights},
	{KindLoads, readLoads},
	{KindPoints, readPoints},
	{KindBalloons, readBalloons},
	{KindBox, readBox},
	{KindMeasured, readMeasured},
}

// allowances holds the ranges of kinds that are not a single number.
var allowances = [...]struct {
	kind Kind
	text string
}{
	{KindFlag, "yes or no"},
	{KindRecipe, "1 to 8 duplets of the sizes 5 to 36"},
	{KindBags, "1 to 100 kinds of bag, each of 1 to 100000"},
	{KindWeights, "1 to 200 shares of 0 to 1000000"},
	{KindLoads, "1 to 100 loads of at most 500000 g"},
	{KindPoints, "2 to 200 points"},
	{KindBalloons, "1 to 200 kinds, 0 to 100000 of each"},
	{KindBox, "sides of 10 to 20000 mm"},
	{KindMeasured, "1 cluster or more over a length"},
}

// read parses text as the input's kind and checks its range.
func (in *Input) read(text string, bare measure.System) (any, error) {
	for i := range readers {
		if readers[i].kind == in.Kind {
			return readers[i].read(text, bare)
		}
	}
	switch in.Kind {
	case KindCount, KindMoney, KindSize:
		n, err := readWhole(in.Kind, text)
		if err != nil {
			return nil, err
		}
		return n, in.check(float64(n))
	case KindChoice:
		return readChoice(text, in.Choices)
	}
	x, err := readNumber(in.Kind, text, bare)
	if err != nil {
		return nil, err
	}
	return x, in.check(x)
}

// check returns an error if a value is out of range. It allows for rounding by unit conversion.
func (in *Input) check(x float64) error {
	slack := 1e-9 * (in.Max - in.Min)
	if in.Max > in.Min && (x < in.Min-slack || x > in.Max+slack) {
		return outOfRange{}
	}
	return nil
}

func readNumber(kind Kind, text string, bare measure.System) (float64, error) {
	if m := formatOf(kind); m != nil && m.read != nil {
		return m.read(text, bare)
	}
	return measure.ParseNumber(text)
}

func readRecipe(text string, _ measure.System) (any, error) { return cluster.ParseRecipe(text) }

func readText(text string, _ measure.System) (any, error) { return oneLine(text), nil }

func readAngle(text string, _ measure.System) (float64, error) { return measure.ParseAngleDeg(text) }

// readPercent also reads a counted share: "9 of 200".
func readPercent(text string, _ measure.System) (float64, error) {
	part, whole, counted := strings.Cut(trimmedLower(text), " of ")
	if !counted {
		return measure.ParsePercent(text)
	}
	n, err := measure.ParseCount(part)
	if err != nil {
		return 0, err
	}
	all, err := measure.ParseCount(whole)
	if err != nil || all == 0 {
		return 0, &measure.Error{Text: text, Want: "a percentage such as 5 %, or 9 of 200"}
	}
	return 100 * float64(n) / float64(all), nil
}

func readMinutes(text string, _ measure.System) (float64, error) { return measure.ParseMinutes(text) }

// readHours reads a bare number as hours.
func readHours(text string, _ measure.System) (float64, error) {
	if hours, err := measure.ParseNumber(text); err == nil && hours >= 0 {
		return hours, nil
	}
	minutes, err := measure.ParseMinutes(text)
	return minutes / 60, err
}

func readWhole(kind Kind, text string) (int, error) {
	switch kind {
	case KindMoney:
		return measure.ParseMoneyCents(text)
	case KindSize:
		return readSize(text)
	}
	return measure.ParseCount(text)
}

var inchMarks = [...]string{"inches", "inch", "in", "\"", "″", "”"}

// readSize reads a nominal size: "11", "11 in", "11\"", "11-inch".
func readSize(text string) (int, error) {
	bare := trimmedLower(text)
	for _, mark := range inchMarks {
		bare = strings.TrimSuffix(bare, mark)
	}
	nominal, err := measure.ParseCount(strings.TrimRight(bare, " -"))
	if err != nil {
		return 0, &measure.Error{Text: text, Want: "a balloon size such as 11"}
	}
	why := "no such size"
	if size, ok := latex.Find(nominal); ok {
		if !size.Modelling() {
			return nominal, nil
		}
		why = "a long modelling balloon; this is about round ones"
	}
	return 0, &measure.Error{Text: text, Want: "one of the round sizes", Why: why}
}

func sizeNames() string {
	var names []string
	for _, size := range latex.Sizes() {
		if !size.Modelling() {
			names = append(names, whole(size.NominalIn))
		}
	}
	return strings.Join(names, ", ")
}

// readChoice accepts a choice, or any prefix of exactly one.
func readChoice(text string, choices []string) (string, error) {
	typed := strings.NewReplacer("aluminum", "aluminium", "timber", "wood").Replace(trimmedLower(text))
	found := ""
	for _, choice := range choices {
		if choice == typed {
			return choice, nil
		}
		if typed != "" && strings.HasPrefix(choice, typed) {
			if found != "" {
				found = ""
				break
			}
			found = choice
		}
	}
	if found == "" {
		return "", &measure.Error{Text: text, Want: "one of those allowed"}
	}
	return found, nil
}

func readFlag(text string, _ measure.System) (any, error) {
	switch trimmedLower(text) {
	case "yes", "y", "true", "1", "on":
		return true, nil
	case "no", "n", "false", "0", "off":
		return false, nil
	}
	return nil, &measure.Error{Text: text, Want: "yes or no"}
}

func readForce(text string, _ measure.System) (float64, error) { return measure.ParseForceN(text) }

// readPart reads a share of a whole: "75 %", "0.75", "3/4". A bare number of 5 or more can only be a percentage.
func readPart(text string, _ measure.System) (float64, error) {
	share, err := measure.ParseNumber(text)
	if err == nil && share < 5 {
		return share, nil
	}
	percent, err := measure.ParsePercent(text)
	return percent / 100, err
}

// hasUnit reports whether text has a letter. Without one it is a bare number.
func hasUnit(text string) bool {
	for i := range len(text) {
		if text[i]|' ' >= 'a' && text[i]|' ' <= 'z' {
			return true
		}
	}
	return false
}

func trimmedLower(text string) string { return strings.ToLower(strings.TrimSpace(text)) }
