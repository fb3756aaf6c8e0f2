package rig

import "fmt"

// Bar lies on two posts, free to turn on each, and may extend past them. Places along it are millimetres from the left
// post: negative on the left overhang, above SpanMM on the right one.
type Bar struct {
	// SpanMM is the distance between the posts.
	SpanMM float64
	// LeftMM and RightMM are the overhangs past each post.
	LeftMM, RightMM float64
	// StiffnessNMM2 is E × I of the bar.
	StiffnessNMM2 float64
	// OwnGramsPerMM is its own mass along its length, equal to kilograms a metre; 0 if a bench test already includes it
	// in the dip that stays.
	OwnGramsPerMM float64
	// Joints lists where the bar is joined.
	Joints []Joint
	// TestedMM is the longest span it was bench-tested at, 0 if it was not.
	TestedMM float64
	// ModulusMM3 and YieldMPa, if known, let Dip check the stress.
	ModulusMM3, YieldMPa float64
	// Creeps says that it keeps sinking under a permanent load (plastic).
	Creeps bool
	// Mark gives the source of its stiffness.
	Mark string
}

// Joint is a place where a bar turns freely by a small angle before it resists.
type Joint struct {
	AtMM    float64
	PlayRad float64
}

// Bench is a test at home: the bar on its posts, with a known weight at the middle.
type Bench struct {
	// SpanMM is the span of the test.
	SpanMM float64
	// MassG is the weight that was hung at the middle.
	MassG float64
	// DipMM is the dip under the weight, measured from a straight line between the posts.
	DipMM float64
	// StaysMM is the dip that stays when the weight is removed: the play of the joints and the effect of the bar's own
	// weight.
	StaysMM float64
}

// BenchBar returns a bar known only by its bench test. Its stiffness is the weight divided by the dip that went back;
// the dip that stayed counts as play at the middle. Errors wrap [ErrInput].
func BenchBar(spanMM float64, test Bench) (Bar, error) {
	if err := inside(
		limit{"test span", test.SpanMM, 100, 20_000, "mm"},
		limit{"test weight", test.MassG, 10, 200_000, "g"},
		limit{"test dip", test.DipMM, 0.1, test.SpanMM / 4, "mm"},
		limit{"dip that stays", test.StaysMM, 0, test.SpanMM / 4, "mm"},
	); err != nil {
		return Bar{}, err
	}
	if test.DipMM-test.StaysMM < 0.05 {
		return Bar{}, fmt.Errorf(
			"%w: the dip that stays (%.4g mm) must be less than the dip under the weight (%.4g mm); hang more so that you "+
				"can read a difference",
			ErrInput,
			test.StaysMM,
			test.DipMM,
		)
	}
	cubed := test.SpanMM * test.SpanMM * test.SpanMM
	b := Bar{
		SpanMM: spanMM, TestedMM: test.SpanMM, Mark: MarkMeasured,
		StiffnessNMM2: WeightN(test.MassG) * cubed / (48 * (test.DipMM - test.StaysMM)),
	}
	if test.StaysMM > 0 {
		b.Joints = []Joint{{AtMM: spanMM / 2, PlayRad: 4 * test.StaysMM / test.SpanMM}}
	}
	return b, b.check()
}

// TubeBar returns a bar of joints+1 equal lengths of tube, with play in each joint. Its own weight counts as a load.
// Errors wrap [ErrInput].
func TubeBar(spanMM float64, t Tube, joints int, playRad float64) (Bar, error) {
	if err := firstError(
		within("span", spanMM, 100, 20_000, "mm"), t.check(),
		inside(limit{"number of joints", float64(joints), 0, 20, ""}, limit{"play", playRad, 0, 0.2, "rad"}),
	); err != nil {
		return Bar{}, err
	}
	b := Bar{
		SpanMM:        spanMM,
		StiffnessNMM2: t.StiffnessNMM2(),
		Mark:          t.Material.Mark,
		OwnGramsPerMM: t.GramsPerMM(),
		ModulusMM3:    t.ModulusMM3(),
		YieldMPa:      t.Material.YieldMPa,
		Creeps:        t.Material.Name == "pvc",
	}
	for i := range joints {
		b.Joints = append(b.Joints, Joint{AtMM: spanMM * float64(i+1) / float64(joints+1), PlayRad: playRad})
	}
	return b, b.check()
}

func (b Bar) check() error {
	if err := inside(
		limit{"span", b.SpanMM, 100, 20_000, "mm"},
		limit{"left overhang", b.LeftMM, 0, b.SpanMM, "mm"},
		limit{"right overhang", b.RightMM, 0, b.SpanMM, "mm"},
		limit{"stiffness", b.StiffnessNMM2, 1e3, 1e15, "N mm²"},
		limit{"own mass", b.OwnGramsPerMM, 0, 100, "g/mm"},
		limit{"number of joints", float64(len(b.Joints)), 0, 50, ""},
		limit{"section modulus", b.ModulusMM3, 0, 1e9, "mm³"},
		limit{"yield stress", b.YieldMPa, 0, 5000, "N/mm²"},
	); err != nil {
		return err
	}
	for i, j := range b.Joints {
		name := fmt.Sprintf("joint %d", i+1)
		if err := inside(
			limit{name + " place", j.AtMM, -b.LeftMM - endSlackMM, b.SpanMM + b.RightMM + endSlackMM, "mm"},
			limit{name + " play", j.PlayRad, 0, 0.5, "rad"},
		); err != nil {
			return err
		}
	}
	return nil
}

// Load is a load that hangs on a bar.
type Load struct {
	Name  string
	MassG float64
	// AtMM is the place of a point load.
	AtMM float64
	// Spread says that the load is spread evenly from FromMM to ToMM; AtMM is then unused.
	Spread       bool
	FromMM, ToMM float64
}

// Along returns a load spread evenly over the whole span.
func (b Bar) Along(name string, massG float64) Load {
	return Load{Name: name, MassG: massG, Spread: true, FromMM: 0, ToMM: b.SpanMM}
}

// Own returns the bar's own weight as a load, including the overhangs.
func (b Bar) Own() Load {
	from, to := -b.LeftMM, b.SpanMM+b.RightMM
	return Load{Name: "the bar itself", MassG: b.OwnGramsPerMM * (to - from), Spread: true, FromMM: from, ToMM: to}
}

// endSlackMM allows for the rounding of converted lengths at the ends of a bar.
const endSlackMM = 1e-6

func (b Bar) checkLoad(l Load) error {
	name := l.Name
	if name == "" {
		name = "load"
	}
	if err := within(name, l.MassG, 0, LargestLoadG, "g"); err != nil {
		return err
	}
	const unit = "mm from the left post"
	from, to := -b.LeftMM-endSlackMM, b.SpanMM+b.RightMM+endSlackMM
	if !l.Spread {
		return within(name+" place", l.AtMM, from, to, unit)
	}
	if err := inside(
		limit{name + " start", l.FromMM, from, to, unit},
		limit{name + " end", l.ToMM, l.FromMM, to, unit},
	); err != nil {
		return err
	}
	if l.ToMM-l.FromMM < 0.001 {
		return fmt.Errorf("%w: %s is spread over no length; give it one place instead", ErrInput, name)
	}
	return nil
}
