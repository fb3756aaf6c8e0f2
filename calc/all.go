package calc

// All returns every calculator in the order to offer them. The caller may change the list but not the calculators'
// tables, which are shared.
func All() []Calculator {
	all := make([]Calculator, len(calculators))
	for i, c := range calculators {
		all[i] = *c
	}
	return all
}

// calculators lists the calculators in the order to offer them.
var calculators = [...]*Calculator{
	&clustersCalculator,
	&accentsCalculator,
	&matchCalculator,
	&outlineCalculator,
	&columnCalculator,
	&wallCalculator,
	&sizeCalculator,
	&heatCalculator,
	&liftCalculator,
	&sparesCalculator,
	&splitCalculator,
	&bagsCalculator,
	&dipCalculator,
	&tipCalculator,
	&lineCalculator,
	&carCalculator,
}

// Find returns the calculator of that name, or false.
func Find(name string) (Calculator, bool) {
	for _, c := range calculators {
		if c.Name == name {
			return *c, true
		}
	}
	return Calculator{}, false
}

// Groups of calculators.
const (
	groupBalloon = "One balloon"
	groupGarland = "Garlands and walls"
	groupBuying  = "Buying"
	groupHold    = "Will it hold"
	groupCar     = "In the car"
)
