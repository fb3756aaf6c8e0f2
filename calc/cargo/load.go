package cargo

import "fmt"

func (l Load) check() error {
	if kinds := len(l.Balls) + len(l.Clusters) + len(l.Sections); kinds > MostKinds {
		return fmt.Errorf("%d kinds of thing: %w, at most %d", kinds, ErrCount, MostKinds)
	}
	if !(l.SqueezePct >= 0 && l.SqueezePct <= LargestSqueeze) {
		return fmt.Errorf("squeeze of %g %%: %w, 0 to %g %%", l.SqueezePct, ErrMeasure, LargestSqueeze)
	}
	if l.Packing != 0 && !(l.Packing >= LeastPacking && l.Packing <= MostPacking) {
		return fmt.Errorf("packing of %g: %w, %g to %g", l.Packing, ErrMeasure, LeastPacking, MostPacking)
	}
	for _, balls := range l.Balls {
		err := checkThing(balls.Name, balls.Count, "diameter", balls.DiameterMM)
		if err == nil && balls.AirL != 0 {
			err = checkAir(balls.Name, balls.AirL)
		}
		if err != nil {
			return err
		}
	}
	for _, clusters := range l.Clusters {
		err := checkThing(clusters.Name, clusters.Count, "reach", clusters.ReachMM)
		if err == nil {
			err = clusters.Filling.check(clusters.Name)
		}
		if err != nil {
			return err
		}
	}
	for _, sections := range l.Sections {
		err := checkThing(sections.Name, sections.Count, "thickness", sections.AcrossMM)
		if err == nil {
			err = checkMM(fmt.Sprintf("%q's length", sections.Name), sections.LengthMM, SmallestMM, LargestLengthMM)
		}
		if err == nil && sections.Filling != (Filling{}) {
			err = sections.Filling.check(sections.Name)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func checkThing(name string, count int, measure string, mm float64) error {
	if count < 0 || count > LargestCount {
		return fmt.Errorf("%d of %q: %w, 0 to %d", count, name, ErrCount, LargestCount)
	}
	return checkMM(fmt.Sprintf("%q's %s", name, measure), mm, SmallestMM, LargestMM)
}

func checkAir(name string, litres float64) error {
	if !(litres >= SmallestAirL && litres <= LargestAirL) {
		return fmt.Errorf("%q's air of %g litres: %w, %g to %g", name, litres, ErrMeasure, SmallestAirL,
			float64(LargestAirL))
	}
	return nil
}

func (f Filling) check(name string) error {
	if err := checkAir(name, f.AirL); err != nil {
		return err
	}
	return checkMM(fmt.Sprintf("%q's largest balloon", name), f.BalloonMM, SmallestMM, LargestMM)
}
