package latex

import "math"

// BallastFactor is the weight at the end of the ribbon divided by the lift, against draughts and tugs (common practice,
// no source).
const BallastFactor = 1.5

// LiftInput is a helium balloon and the place where it floats.
type LiftInput struct {
	Size Size
	// ToMM is the diameter it is inflated to.
	ToMM float64
	// Air is the place where it floats; a HumidityPct of 0 means dry air.
	Air Place
	// ExtraG is the mass of ribbon, tag and gel.
	ExtraG float64
	// PurityPct is the helium in the gas by volume, the rest air; 0 means 100.
	PurityPct float64
	// GelFactor is how many times longer it floats with gel inside; 0 means 1, no gel.
	GelFactor float64
	// BallastFactor replaces the constant of that name; 0 means the constant.
	BallastFactor float64
	// Cylinder, if not zero, is the source for Lift.PerCylinder.
	Cylinder Cylinder
}

// Lift is the lift of a helium balloon.
type Lift struct {
	// GrossG is the weight of the displaced air minus that of the gas.
	GrossG float64
	// NetG is GrossG minus latex and extras; below 0 it sinks.
	NetG float64
	// BallastG is the weight to hold it down, rounded up to whole grams; 0 if it does not rise.
	BallastG float64
	// FloatHours is how long it floats, see [FloatHours]; 0 if it does not rise.
	FloatHours float64
	// FloatMark says how far FloatHours can be trusted.
	FloatMark string
	// PerCylinder is how many such balloons the cylinder fills, 0 without a cylinder.
	PerCylinder int
	// VolumeL, AirDensity and GasDensity (g/L) and RubberPa are intermediate results.
	VolumeL, AirDensity, GasDensity, RubberPa float64
	// Notes are sentences to show, none if all is well.
	Notes []string
}

// Floating computes the lift and float time of a helium balloon, and how many a cylinder fills. Densities follow from
// temperature and pressure (air by CIPM-2007, helium with its compressibility at the pressure inside), not from
// constants. Errors wrap [ErrInput].
func Floating(in LiftInput) (Lift, error) {
	if err := in.check(); err != nil {
		return Lift{}, err
	}
	l := Lift{VolumeL: in.Size.VolumeL(in.ToMM), RubberPa: in.Size.Skin().PressurePa(in.ToMM), FloatMark: MarkScaled}
	inside, pure := in.Air.AirPa()+l.RubberPa, in.purity()
	l.AirDensity = in.Air.AirDensity()
	l.GasDensity = float64(pure*HeliumDensity(in.Air.TempC, inside)) + float64(
		(1-pure)*MoistAirDensity(in.Air.TempC, inside, 0),
	)
	l.GrossG = l.VolumeL * (l.AirDensity - l.GasDensity)
	l.NetG = l.GrossG - in.Size.LatexG - in.ExtraG
	if l.NetG > 0 {
		l.BallastG = math.Ceil(float64(l.NetG*orDefault(in.BallastFactor, BallastFactor)) - 1e-9)
	}
	l.FloatHours = FloatHours(in.Size.LatexG, DiameterMM(l.VolumeL), l.NetG, l.GrossG, in.Air.TempC) *
		orDefault(in.GelFactor, 1)
	if in.Cylinder.Given() {
		count, err := in.Cylinder.Fills(l.VolumeL, l.RubberPa, in.Air)
		if err != nil {
			return Lift{}, err
		}
		l.PerCylinder = count
	}
	l.Notes = liftNotes(in, l)
	return l, nil
}

func (in LiftInput) check() error {
	if err := in.Size.checkRound(in.ToMM); err != nil {
		return err
	}
	if err := in.Air.check("air"); err != nil {
		return err
	}
	if err := inside(
		limit{"extra mass", in.ExtraG, 0, 10_000, "g"},
		limit{"helium purity", orDefault(in.PurityPct, 100), 50, 100, "%"},
		limit{"gel factor", orDefault(in.GelFactor, 1), 0.05, 50, ""},
		limit{"ballast factor", orDefault(in.BallastFactor, BallastFactor), 1, 10, ""},
	); err != nil {
		return err
	}
	return in.Cylinder.check()
}

func (in LiftInput) purity() float64 { return orDefault(in.PurityPct, 100) / 100 }

// longestHours is the longest float time that is reported: three weeks (from memory).
const longestHours = 3 * 7 * 24

func liftNotes(in LiftInput, l Lift) []string {
	var notes []string
	switch {
	case l.NetG <= 0:
		add(&notes, "It does not rise: use a larger balloon, fill it more or hang less on it.")
	case l.NetG < 0.15*l.GrossG:
		add(&notes, "It barely rises and sinks soon.")
	}
	if l.FloatHours > longestHours {
		add(&notes, "That is longer than latex lasts: after some weeks in the air it ages and sinks.")
	}
	if in.Air.AirPa() < 60_000 || in.Air.TempC < 15 || in.Air.TempC > 27 {
		add(&notes, "The formula for air is published for room temperature; this goes a little beyond.")
	}
	if in.Cylinder.Given() {
		add(&notes, "Gas stays in the cylinder once its pressure equals the air's. Subtract what hisses past the nozzle.")
	}
	return notes
}

func orDefault(value, otherwise float64) float64 {
	if value == 0 {
		return otherwise
	}
	return value
}
