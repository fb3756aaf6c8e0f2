package cargo

// PackingFraction returns the packing fraction of balls in the space.
func PackingFraction(space Space, diameterMM float64) (float64, error) {
	r, err := space.room()
	if err != nil {
		return 0, err
	}
	if err := checkMM("ball's diameter", diameterMM, SmallestMM, LargestMM); err != nil {
		return 0, err
	}
	return r.packingFraction(diameterMM), nil
}
