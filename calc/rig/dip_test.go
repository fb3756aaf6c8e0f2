package rig_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/rig"
)

const gravity = 9.80665

// grams returns the mass with that weight in newton.
func grams(newton float64) float64 { return newton / gravity * 1000 }

func dip(t *testing.T, b rig.Bar, loads ...rig.Load) rig.Dip {
	t.Helper()
	d, err := b.Dip(loads, rig.DipRule{})
	require.NoError(t, err)
	return d
}

// TestDipOregonExample checks University of Oregon, Luebkeman & Peting, lecture 40: W21x62 of 24 ft, I 1330 in⁴, E
// 29,000 ksi; 2 kip/ft over the whole length and 16 kip at the middle sink 0.387 in and 0.206 in, 0.593 in together.
// Load and stiffness are scaled down ten thousand times, to the range of a garland bar.
func TestDipOregonExample(t *testing.T) {
	const (
		inch, kip = 25.4, 4448.2216152605
		scale     = 1e-4
	)
	bar := rig.Bar{SpanMM: 24 * 12 * inch,
		StiffnessNMM2: 29_000 * 6.894757293168 * 1330 * inch * inch * inch * inch * scale}
	spread := bar.Along("floor", grams(2*24*kip*scale))
	point := rig.Load{Name: "column", MassG: grams(16 * kip * scale), AtMM: bar.SpanMM / 2}
	assert.InDelta(t, 0.387, dip(t, bar, spread).DipMM/inch, 0.001)
	assert.InDelta(t, 0.206, dip(t, bar, point).DipMM/inch, 0.001)
	assert.InDelta(t, 0.593, dip(t, bar, spread, point).DipMM/inch, 0.001)
}

// TestDipFormulas checks closed formulas of textbooks and of the AISC Manual, Table 3-23 (cases from memory), each
// computed for a bar of 3 m, E I = 1e9 N mm².
func TestDipFormulas(t *testing.T) {
	const (
		span, stiff = 3000.0, 1e9
		load        = 20.0 // newton
	)
	root := math.Sqrt
	for _, row := range []struct {
		name         string
		left, right  float64
		load         rig.Load
		want, moment float64
		at           func(rig.Dip) float64
	}{
		{"middle: P L³/48 E I, moment P L/4", 0, 0, rig.Load{AtMM: span / 2},
			load * span * span * span / (48 * stiff), load * span / 4, largest},
		{"all along: 5 w L⁴/384 E I, moment w L²/8", 0, 0, rig.Load{Spread: true, ToMM: span},
			5 * load * span * span * span / (384 * stiff), load * span / 8, largest},
		{"off the middle: P b (L²-b²)^1.5 / (9 √3 L E I)", 0, 0, rig.Load{AtMM: 2200},
			load * 800 * math.Pow(span*span-800*800, 1.5) / (9 * root(3) * span * stiff), load * 800 * 2200 / span, largest},
		{"tip of an overhang: P a² (L+a)/3 E I", 0, 700, rig.Load{AtMM: span + 700},
			load * 700 * 700 * (span + 700) / (3 * stiff), load * 700, rightTip},
		{"along an overhang: w a³ (4 L+3 a)/24 E I", 0, 700, rig.Load{Spread: true, FromMM: span, ToMM: span + 700},
			load / 700 * 700 * 700 * 700 * (4*span + 3*700) / (24 * stiff), load * 350, rightTip},
		{"the same on the left", 700, 0, rig.Load{AtMM: -700},
			load * 700 * 700 * (span + 700) / (3 * stiff), load * 700, leftTip},
		{"all along lifts an overhang: -w L³ a/24 E I", 0, 700, rig.Load{Spread: true, ToMM: span},
			-load / span * span * span * span * 700 / (24 * stiff), load * span / 8, rightTip},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.load.MassG = grams(load)
			bar := rig.Bar{SpanMM: span, LeftMM: row.left, RightMM: row.right, StiffnessNMM2: stiff}
			d := dip(t, bar, row.load)
			assert.InEpsilon(t, row.want, row.at(d), 1e-9)
			assert.InEpsilon(t, row.moment, d.MomentNMM, 1e-6)
			assert.InEpsilon(t, load, d.LeftPostN+d.RightPostN, 1e-9)
		})
	}
	// A load on an overhang bends the span upwards by P a L²/(9 √3 E I).
	d := dip(t, rig.Bar{SpanMM: span, RightMM: 700, StiffnessNMM2: stiff}, rig.Load{AtMM: span + 700, MassG: grams(load)})
	highest := 0.0
	for _, p := range d.Curve {
		highest = min(highest, p.DipMM)
	}
	assert.InEpsilon(t, load*700*span*span/(9*root(3)*stiff), -highest, 1e-2)
}

func largest(d rig.Dip) float64  { return d.DipMM }
func rightTip(d rig.Dip) float64 { return d.RightTipMM }
func leftTip(d rig.Dip) float64  { return d.LeftTipMM }

// TestMomentAndStress checks mathalino.com problem 529: 10 m, 16 kN/m: moment 200 kN m, needs 1667e3 mm³ at 120 MPa.
// The loads are a thousandth of that.
func TestMomentAndStress(t *testing.T) {
	bar := rig.Bar{SpanMM: 10_000, StiffnessNMM2: 1e13, ModulusMM3: 1667, YieldMPa: 235}
	d := dip(t, bar, bar.Along("all", grams(160)))
	assert.InEpsilon(t, 200e3, d.MomentNMM, 1e-9)
	assert.InEpsilon(t, 120, d.StressMPa, 1e-3)
}

// TestPlayIsAKink checks that a joint in the middle that turns by an angle sinks angle × L/4, and two at the thirds
// sink angle × L/3 (geometry).
func TestPlayIsAKink(t *testing.T) {
	const angle = 0.01
	bar := rig.Bar{SpanMM: 3000, StiffnessNMM2: 1e9, Joints: []rig.Joint{{AtMM: 1500, PlayRad: angle}}}
	d := dip(t, bar)
	assert.InDelta(t, 7.5, d.DipMM, 1e-6)
	assert.InDelta(t, 7.5, d.PlayMM, 1e-6)
	assert.Zero(t, d.ElasticMM)
	bar.Joints = []rig.Joint{{AtMM: 1000, PlayRad: angle}, {AtMM: 2000, PlayRad: angle}}
	assert.InDelta(t, 10, dip(t, bar).DipMM, 1e-6)
	// On a loaded overhang the joint opens the other way.
	bar = rig.Bar{SpanMM: 3000, RightMM: 500, StiffnessNMM2: 1e9, Joints: []rig.Joint{{AtMM: 3100, PlayRad: angle}}}
	d = dip(t, bar, rig.Load{MassG: 100, AtMM: 3500})
	assert.InDelta(t, angle*400, d.PlayMM, 1e-6)
	// Without a load it hangs down by itself.
	assert.InDelta(t, angle*400, dip(t, bar).RightTipMM, 1e-6)
}

// TestTubeCarriesItself checks a tube's own weight: 33.7 x 2.6 in steel is 1.99 kg/m (EN 10210-2), so 3 m of it sink by
// 5 w L⁴/384 E I without a load.
func TestTubeCarriesItself(t *testing.T) {
	steel, _ := rig.FindMaterial("steel")
	tube := rig.Tube{OuterMM: 33.7, WallMM: 2.6, Material: steel}
	bar, err := rig.TubeBar(3000, tube, 0, 0)
	require.NoError(t, err)
	assert.InDelta(t, 1.99, bar.OwnGramsPerMM, 0.005)
	want := 5 * 1.99e-3 * gravity * math.Pow(3000, 4) / (384 * 210_000 * 3.09e4)
	assert.InEpsilon(t, want, dip(t, bar).DipMM, 5e-3)
	assert.InEpsilon(t, dip(t, bar, bar.Own()).DipMM, 2*dip(t, bar).DipMM, 1e-9)
}

// TestBenchReproducesItsMeasurement checks that a bench test reproduces the measurement without tube data.
func TestBenchReproducesItsMeasurement(t *testing.T) {
	test := rig.Bench{SpanMM: 2800, MassG: 1550, DipMM: 31, StaysMM: 12}
	bar, err := rig.BenchBar(2800, test)
	require.NoError(t, err)
	assert.Equal(t, rig.MarkMeasured, bar.Mark)
	d := dip(t, bar, rig.Load{Name: "bottle", MassG: 1550, AtMM: 1400})
	assert.InDelta(t, 31, d.DipMM, 1e-6)
	assert.InDelta(t, 12, d.PlayMM, 1e-6)
	assert.InDelta(t, 12, dip(t, bar).DipMM, 1e-6)
	// A longer span than tested gets a note.
	longer, err := rig.BenchBar(3200, test)
	require.NoError(t, err)
	assert.Contains(t, fmt.Sprint(dip(t, longer, rig.Load{MassG: 500, AtMM: 1600}).Notes), "longer than the bench test")
}

// TestDipVerdicts checks a rule of common practice: span/100 is visible, span/50 is too much. Both can be set.
func TestDipVerdicts(t *testing.T) {
	bar := rig.Bar{SpanMM: 3000, StiffnessNMM2: 1e9}
	hang := func(dipMM float64) rig.Load {
		return rig.Load{MassG: grams(dipMM * 48 * 1e9 / (3000 * 3000 * 3000)), AtMM: 1500}
	}
	for _, row := range []struct {
		name  string
		dipMM float64
		rule  rig.DipRule
		want  rig.Verdict
	}{
		{"just under a hundredth", 29.9, rig.DipRule{}, rig.VerdictHolds},
		{"just over a hundredth", 30.1, rig.DipRule{}, rig.VerdictVisible},
		{"just under a fiftieth", 59.9, rig.DipRule{}, rig.VerdictVisible},
		{"just over a fiftieth", 60.1, rig.DipRule{}, rig.VerdictDoNotUse},
		{"a stricter rule", 20, rig.DipRule{VisiblePart: 200, UselessPart: 160}, rig.VerdictDoNotUse},
	} {
		d, err := bar.Dip([]rig.Load{hang(row.dipMM)}, row.rule)
		require.NoError(t, err)
		assert.Equal(t, row.want, d.Verdict, row.name)
		assert.InEpsilon(t, 100*d.DipMM/d.LimitMM, d.SharePct, 1e-12)
	}
	over := rig.Bar{SpanMM: 2000, RightMM: 1000, StiffnessNMM2: 1e12}
	d := dip(t, over, rig.Load{MassG: 1000, AtMM: 2900})
	assert.Negative(t, d.LeftPostN)
	assert.Equal(t, rig.VerdictDoNotUse, d.Verdict, "lifts off the left post")

	pvc, _ := rig.FindMaterial("pvc")
	soft, err := rig.TubeBar(1500, rig.Tube{OuterMM: 25, WallMM: 2, Material: pvc}, 0, 0)
	require.NoError(t, err)
	d = dip(t, soft, soft.Along("garland", 300))
	assert.Contains(t, fmt.Sprint(d.Notes), "Plastic")
}

// TestOverhangsAreJudgedByTwiceTheirLength checks "For cantilever members, L shall be taken as twice the length of the
// cantilever": International Residential Code 2009, table R301.7, note b.
func TestOverhangsAreJudgedByTwiceTheirLength(t *testing.T) {
	bar := rig.Bar{SpanMM: 3000, LeftMM: 500, RightMM: 400, StiffnessNMM2: 1e9}
	for _, load := range []rig.Load{{MassG: 200, AtMM: -500}, {MassG: 200, AtMM: 3400}} {
		d := dip(t, bar, load)
		require.Equal(t, load.AtMM, d.AtMM)
		overhang := max(-d.AtMM, d.AtMM-3000)
		assert.InEpsilon(t, 2*overhang/100, d.LimitMM, 1e-12)
		assert.InEpsilon(t, 2*overhang/50, d.UselessMM, 1e-12)
	}
}

func TestStressRefuses(t *testing.T) {
	thin, _ := rig.FindMaterial("aluminium")
	bar, err := rig.TubeBar(1000, rig.Tube{OuterMM: 10, WallMM: 1, Material: thin}, 1, 0)
	require.NoError(t, err)
	d, err := bar.Dip([]rig.Load{{MassG: 30_000, AtMM: 500}}, rig.DipRule{VisiblePart: 10, UselessPart: 5})
	require.NoError(t, err)
	assert.Greater(t, d.StressMPa, 100/1.5)
	assert.Equal(t, rig.VerdictDoNotUse, d.Verdict)
}

func TestDipErrors(t *testing.T) {
	good := rig.Bar{SpanMM: 3000, StiffnessNMM2: 1e9}
	aluminium, _ := rig.FindMaterial("aluminium")
	for name, err := range map[string]error{
		"no span":       second(rig.Bar{StiffnessNMM2: 1e9}.Dip(nil, rig.DipRule{})),
		"no stiffness":  second(rig.Bar{SpanMM: 3000}.Dip(nil, rig.DipRule{})),
		"off the bar":   second(good.Dip([]rig.Load{{MassG: 100, AtMM: 3001}}, rig.DipRule{})),
		"negative mass": second(good.Dip([]rig.Load{{MassG: -1, AtMM: 10}}, rig.DipRule{})),
		"no length": second(good.Dip([]rig.Load{{Name: "cloth", MassG: 1, Spread: true, FromMM: 5, ToMM: 5}},
			rig.DipRule{})),
		"backwards":      second(good.Dip([]rig.Load{{MassG: 1, Spread: true, FromMM: 9, ToMM: 5}}, rig.DipRule{})),
		"rule":           second(good.Dip(nil, rig.DipRule{VisiblePart: 10, UselessPart: 50})),
		"no elastic dip": second(rig.BenchBar(3000, rig.Bench{SpanMM: 3000, MassG: 1500, DipMM: 10, StaysMM: 10})),
		"no test":        second(rig.BenchBar(3000, rig.Bench{})),
		"wall too thick": second(rig.TubeBar(3000, rig.Tube{OuterMM: 20, WallMM: 11, Material: aluminium}, 0, 0)),
		"no material":    second(rig.TubeBar(3000, rig.Tube{OuterMM: 20, WallMM: 2}, 0, 0)),
		"joints":         second(rig.TubeBar(3000, rig.Tube{OuterMM: 20, WallMM: 2, Material: aluminium}, -1, 0)),
	} {
		assert.ErrorIs(t, err, rig.ErrInput, name)
	}
}

func second[T any](_ T, err error) error { return err }

func ExampleBar_Dip() {
	// Bench test at home: a full bottle at the middle of the bar at its span.
	bar, _ := rig.BenchBar(2800, rig.Bench{SpanMM: 2800, MassG: 1550, DipMM: 26, StaysMM: 9})
	d, _ := bar.Dip([]rig.Load{
		{Name: "reading room sign", MassG: 800, AtMM: 1200},
		bar.Along("garland", 1500),
	}, rig.DipRule{})
	fmt.Printf("dips %.0f mm (%.0f of it play), shows from %.0f mm: %s\n", d.DipMM, d.PlayMM, d.LimitMM, d.Verdict)
	// Output: dips 28 mm (9 of it play), shows from 28 mm: holds
}
