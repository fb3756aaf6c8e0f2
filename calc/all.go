package calc

import "garlandry/calc/measure"

// All lists every calculator in the order to offer them. The list is built
// afresh; callers may change what they get.
func All() []Calculator {
	makers := makers()
	all := make([]Calculator, len(makers))
	for i, made := range makers {
		all[i] = made()
	}
	return all
}

// makers are the calculators in the order to offer them.
func makers() []func() Calculator {
	return []func() Calculator{
		clustersCalculator,
		accentsCalculator,
		matchCalculator,
		outlineCalculator,
		columnCalculator,
		wallCalculator,
		sizeCalculator,
		heatCalculator,
		liftCalculator,
		sparesCalculator,
		splitCalculator,
		bagsCalculator,
		dipCalculator,
		tipCalculator,
		lineCalculator,
		carCalculator,
	}
}

// Find returns the calculator of that name; false when there is none.
func Find(name string) (Calculator, bool) {
	all := All()
	for i := range all {
		if all[i].Name == name {
			return all[i], true
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

// Compute finds the calculator and runs it: Calculator.Compute by name. An
// unknown name gives an *InputError that lists the names.
func Compute(name string, raw map[string]string, system measure.System) (Result, error) {
	c, ok := Find(name)
	if !ok {
		return Result{}, unknownCalculator(name)
	}
	return c.Compute(raw, system)
}
