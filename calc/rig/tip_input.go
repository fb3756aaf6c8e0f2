package rig

import "fmt"

func (r TipRule) filled() TipRule {
	return TipRule{
		OverturnFactor:  orDefault(r.OverturnFactor, TipFactor),
		SlideFactor:     orDefault(r.SlideFactor, TipFactor),
		AirDensity:      orDefault(r.AirDensity, AirDensity),
		DragCoefficient: r.DragCoefficient,
		HighestWindMPS:  orDefault(r.HighestWindMPS, HighestWindMPS),
	}
}

func (r TipRule) check() error {
	return inside(
		limit{"factor against tipping", r.OverturnFactor, 1, 10, ""},
		limit{"factor against sliding", r.SlideFactor, 1, 10, ""},
		limit{"air density", r.AirDensity, 0.5, 1.5, "kg/m³"},
		limit{"drag coefficient", r.DragCoefficient, 0, 3, ""},
		limit{"highest wind", r.HighestWindMPS, 1, 30, "m/s"},
	)
}

func (f Frame) check() error {
	return inside(
		limit{"width", f.WidthMM, 50, 20_000, "mm"},
		limit{"height", f.HeightMM, 50, 10_000, "mm"},
		limit{"depth", f.DepthMM, 0, 5000, "mm"},
		limit{"height off the ground", f.BottomMM, 0, 10_000, "mm"},
		limit{"weight", f.MassG, 100, 5e6, "g"},
		limit{"base depth", f.BaseDepthMM, 20, 10_000, "mm"},
		limit{"base width", f.BaseWidthMM, 20, 20_000, "mm"},
		limit{"solidity", f.Solidity, 0.05, 1, ""},
		limit{"pull of the lines", f.LinesN, 0, 50_000, "N"},
		limit{"height of the lines", f.LinesAtMM, 0, 10_000, "mm"},
		limit{"friction", f.Friction, 0.02, 1.5, ""},
		limit{"weight forward of the middle", f.ForwardMM, -0.49 * f.BaseDepthMM, 0.49 * f.BaseDepthMM, "mm"},
	)
}

func (p Push) check() error {
	if err := inside(
		limit{"wind", p.WindMPS, 0, 60, "m/s"},
		limit{"push", p.PushN, 0, 5000, "N"},
		limit{"height of the push", p.PushAtMM, 0, 10_000, "mm"},
	); err != nil {
		return err
	}
	if p.PushN > 0 && p.PushAtMM < 1 {
		return fmt.Errorf(
			"%w: a push of %.4g N needs its height above the ground, 1 to 10000 mm; a leaning shoulder is about 1300 mm",
			ErrInput, p.PushN,
		)
	}
	if p.WindMPS < 0.1 && p.PushN < 0.1 {
		return fmt.Errorf(
			"%w: give a wind of at least 0.1 m/s or a push of at least 0.1 N; somebody leaning on it is about 100 N at 1 m",
			ErrInput,
		)
	}
	return nil
}
