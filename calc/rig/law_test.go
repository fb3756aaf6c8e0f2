package rig_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"garlandry/calc/rig"
)

// The laws compare dips with an absolute tolerance of a millionth of a micrometre beside the relative one, because a
// load on a post dips only by rounding.
func drawBar(t *rapid.T) rig.Bar {
	b := rig.Bar{
		SpanMM:        rapid.Float64Range(500, 6000).Draw(t, "span"),
		StiffnessNMM2: rapid.Float64Range(1e7, 1e11).Draw(t, "EI"),
	}
	b.LeftMM = b.SpanMM * rapid.Float64Range(0, 0.6).Draw(t, "left")
	b.RightMM = b.SpanMM * rapid.Float64Range(0, 0.6).Draw(t, "right")
	for range rapid.IntRange(0, 3).Draw(t, "joints") {
		b.Joints = append(b.Joints, rig.Joint{
			AtMM:    b.SpanMM * rapid.Float64Range(0.05, 0.95).Draw(t, "joint"),
			PlayRad: rapid.Float64Range(0, 0.02).Draw(t, "play"),
		})
	}
	return b
}

// drawLoads generates loads between the two places.
func drawLoads(t *rapid.T, from, to float64) []rig.Load {
	var loads []rig.Load
	for range rapid.IntRange(1, 4).Draw(t, "loads") {
		l := rig.Load{MassG: rapid.Float64Range(1, 20_000).Draw(t, "grams"), Spread: rapid.Bool().Draw(t, "spread")}
		one := from + (to-from)*rapid.Float64Range(0, 0.98).Draw(t, "at")
		if l.Spread {
			l.FromMM, l.ToMM = one, one+(to-one)*rapid.Float64Range(0.5, 1).Draw(t, "width")
		} else {
			l.AtMM = one
		}
		loads = append(loads, l)
	}
	return loads
}

func bend(t *rapid.T, b rig.Bar, loads []rig.Load) rig.Dip {
	d, err := b.Dip(loads, rig.DipRule{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func mirrored(b rig.Bar, loads []rig.Load) (rig.Bar, []rig.Load) {
	m := b
	m.LeftMM, m.RightMM, m.Joints = b.RightMM, b.LeftMM, nil
	for _, j := range b.Joints {
		m.Joints = append(m.Joints, rig.Joint{AtMM: b.SpanMM - j.AtMM, PlayRad: j.PlayRad})
	}
	var other []rig.Load
	for _, l := range loads {
		o := l
		o.AtMM, o.FromMM, o.ToMM = b.SpanMM-l.AtMM, b.SpanMM-l.ToMM, b.SpanMM-l.FromMM
		if !l.Spread {
			o.FromMM, o.ToMM = 0, 0
		}
		other = append(other, o)
	}
	return m, other
}

// TestDipMirror checks that a mirrored bar dips the same. It has no joints, because rounding decides whether a joint
// with almost no moment opens up or down.
func TestDipMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBar(t)
		b.Joints = nil
		loads := drawLoads(t, -b.LeftMM, b.SpanMM+b.RightMM)
		one := bend(t, b, loads)
		two := bend(t, first(mirrored(b, loads)), secondOf(mirrored(b, loads)))
		slices.Reverse(two.Curve)
		most := 0.0
		for _, p := range one.Curve {
			most = max(most, math.Abs(p.DipMM))
		}
		for i, p := range one.Curve {
			if math.Abs(p.DipMM-two.Curve[i].DipMM) > 1e-8*most+1e-9 {
				t.Fatalf("at %v: %v and %v", p.AtMM, p.DipMM, two.Curve[i].DipMM)
			}
		}
		if math.Abs(one.LeftPostN-two.RightPostN) > 1e-9*(math.Abs(one.LeftPostN)+1) ||
			math.Abs(one.MomentNMM-two.MomentNMM) > 1e-6*(one.MomentNMM+1) {
			t.Fatalf("posts %v and %v, moments %v and %v", one.LeftPostN, two.RightPostN, one.MomentNMM, two.MomentNMM)
		}
	})
}

// TestDipMirrorWithPlay has joints too. All loads are between the posts, where every joint sags.
func TestDipMirrorWithPlay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBar(t)
		loads := drawLoads(t, 0, b.SpanMM)
		one := bend(t, b, loads)
		two := bend(t, first(mirrored(b, loads)), secondOf(mirrored(b, loads)))
		if math.Abs(one.DipMM-two.DipMM) > 1e-7*one.DipMM+1e-9 {
			t.Fatalf("%v and %v", one.DipMM, two.DipMM)
		}
	})
}

func first[A, B any](a A, _ B) A    { return a }
func secondOf[A, B any](_ A, b B) B { return b }

// TestDipLaws checks that more load or more play on the span never dips less, and a stiffer bar never more; that half
// the load twice is the load; and that scaling all lengths by k and E I by k² scales every dip by k.
func TestDipLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBar(t)
		loads := drawLoads(t, 0, b.SpanMM)
		d := bend(t, b, loads)
		if more := bend(t, b, append(slices.Clone(loads), drawLoads(t, 0, b.SpanMM)...)); more.DipMM < d.DipMM*(1-1e-9)-1e-9 {
			t.Fatalf("more load dips less: %v after %v", more.DipMM, d.DipMM)
		}
		stiff := b
		stiff.StiffnessNMM2 *= 1.5
		if bend(t, stiff, loads).DipMM > d.DipMM*(1+1e-9)+1e-9 {
			t.Fatal("a stiffer bar dips more")
		}
		loose := b
		loose.Joints = append(slices.Clone(b.Joints), rig.Joint{AtMM: b.SpanMM / 3, PlayRad: 0.01})
		if bend(t, loose, loads).DipMM < d.DipMM*(1-1e-9)-1e-9 {
			t.Fatal("more play dips less")
		}
		var halves []rig.Load
		for _, l := range loads {
			l.MassG /= 2
			halves = append(halves, l, l)
		}
		if got := bend(t, b, halves); math.Abs(got.DipMM-d.DipMM) > 1e-9*d.DipMM+1e-9 {
			t.Fatal("halves do not add up")
		}
		k := rapid.Float64Range(0.8, 2).Draw(t, "k")
		big := rig.Bar{SpanMM: k * b.SpanMM, LeftMM: k * b.LeftMM, RightMM: k * b.RightMM,
			StiffnessNMM2: k * k * b.StiffnessNMM2}
		for _, j := range b.Joints {
			big.Joints = append(big.Joints, rig.Joint{AtMM: k * j.AtMM, PlayRad: j.PlayRad})
		}
		var far []rig.Load
		for _, l := range loads {
			far = append(far,
				rig.Load{MassG: l.MassG, AtMM: k * l.AtMM, Spread: l.Spread, FromMM: k * l.FromMM, ToMM: k * l.ToMM})
		}
		if got := bend(t, big, far); math.Abs(got.DipMM-k*d.DipMM) > 1e-6*d.DipMM+1e-9 {
			t.Fatalf("scaled by %v: %v after %v", k, got.DipMM, d.DipMM)
		}
	})
}

func drawFrame(t *rapid.T) rig.Frame {
	f := rig.Frame{
		WidthMM: rapid.Float64Range(300, 6000).Draw(t, "width"), HeightMM: rapid.Float64Range(300, 4000).Draw(t, "height"),
		DepthMM: rapid.Float64Range(0, 800).Draw(t, "depth"), BottomMM: rapid.Float64Range(0, 800).Draw(t, "bottom"),
		MassG: rapid.Float64Range(1000, 300_000).
			Draw(t, "grams"),
		BaseDepthMM: rapid.Float64Range(200, 2000).Draw(t, "base depth"),
		BaseWidthMM: rapid.Float64Range(200, 6000).
			Draw(t, "base width"),
		Solidity: rapid.Float64Range(0.05, 0.95).Draw(t, "solidity"),
		Friction: rapid.Float64Range(0.1, 1).Draw(t, "friction"),
		Round:    rapid.Bool().Draw(t, "round"),
	}
	if rapid.Bool().Draw(t, "lines") {
		f = f.WithLines(rapid.IntRange(0, 4).Draw(t, "how many"), 200)
	}
	f.ForwardMM = f.BaseDepthMM * rapid.Float64Range(-0.4, 0.4).Draw(t, "forward")
	return f
}

// TestTipLaws checks that more wind, a larger or higher push, a more closed, larger or higher face, smaller feet and
// weaker lines never make a frame safer, that more weight never makes it less safe, and that turning it round
// changes nothing.
func TestTipLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		p := rig.Push{WindMPS: rapid.Float64Range(0.5, 20).Draw(t, "wind"),
			PushN: rapid.Float64Range(0, 200).Draw(t, "push"), PushAtMM: rapid.Float64Range(1, 2000).Draw(t, "at")}
		stand := func(f rig.Frame, p rig.Push) rig.Tip {
			tip, err := f.Tip(p, rig.TipRule{})
			if err != nil {
				t.Fatal(err)
			}
			return tip
		}
		base := stand(f, p)
		for name, change := range map[string]func(*rig.Frame, *rig.Push){
			"windier":     func(_ *rig.Frame, p *rig.Push) { p.WindMPS *= 1.1 },
			"pushed":      func(_ *rig.Frame, p *rig.Push) { p.PushN += 10 },
			"pushed high": func(_ *rig.Frame, p *rig.Push) { p.PushAtMM += 100 },
			"closed":      func(f *rig.Frame, _ *rig.Push) { f.Solidity += 0.05 },
			"taller":      func(f *rig.Frame, _ *rig.Push) { f.HeightMM *= 1.1 },
			"wider":       func(f *rig.Frame, _ *rig.Push) { f.WidthMM *= 1.1 },
			"thicker":     func(f *rig.Frame, _ *rig.Push) { f.DepthMM *= 1.1 },
			"higher":      func(f *rig.Frame, _ *rig.Push) { f.BottomMM += 50 },
			"flatter feet": func(f *rig.Frame, _ *rig.Push) {
				f.BaseDepthMM = max(f.BaseDepthMM*0.9, 2.1*math.Abs(f.ForwardMM))
			},
			"narrower feet": func(f *rig.Frame, _ *rig.Push) { f.BaseWidthMM *= 0.9 },
			"weaker lines":  func(f *rig.Frame, _ *rig.Push) { f.LinesN *= 0.9 },
			"lower lines":   func(f *rig.Frame, _ *rig.Push) { f.LinesAtMM *= 0.9 },
			"smoother":      func(f *rig.Frame, _ *rig.Push) { f.Friction *= 0.9 },
			"lighter":       func(f *rig.Frame, _ *rig.Push) { f.MassG *= 0.9 },
		} {
			f, p := f, p
			change(&f, &p)
			worse := stand(f, p)
			const tiny = 1 + 1e-12
			if worse.OverturnFactor > base.OverturnFactor*tiny || worse.SlideFactor > base.SlideFactor*tiny ||
				worse.BallastKG < base.BallastKG || worse.MaxWindMPS > base.MaxWindMPS*(1+1e-9) {
				t.Fatalf("%s is safer: %+v after %+v", name, worse, base)
			}
		}
		if math.Abs(
			stand(f, p).MaxWindMPS-stand(f, rig.Push{WindMPS: p.WindMPS / 2, PushN: p.PushN, PushAtMM: p.PushAtMM}).MaxWindMPS,
		) > 1e-6 {
			t.Fatal("the take-down wind must not depend on the given wind")
		}
		turned := f
		turned.ForwardMM = -f.ForwardMM
		other := stand(turned, p)
		if other.OverturnFactor != base.OverturnFactor || other.BallastKG != base.BallastKG {
			t.Fatal("turned round, it must stand the same")
		}
	})
}

// TestLineLaws checks that more weight, more lean, weaker line and fewer lines never give a better factor.
func TestLineLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rig.Line{
			MassG: rapid.Float64Range(1, 50_000).Draw(t, "grams"), Points: rapid.IntRange(2, 6).Draw(t, "points"),
			AngleDeg: rapid.Float64Range(0, 78).Draw(t, "angle"), StrengthN: rapid.Float64Range(1, 5000).Draw(t, "strength"),
		}
		base, err := l.Hold()
		if err != nil {
			t.Fatal(err)
		}
		for name, change := range map[string]func(*rig.Line){
			"heavier": func(l *rig.Line) { l.MassG *= 1.01 },
			"leaning": func(l *rig.Line) { l.AngleDeg++ },
			"weaker":  func(l *rig.Line) { l.StrengthN *= 0.9 },
			"fewer":   func(l *rig.Line) { l.Points-- },
			"knotted": func(l *rig.Line) { l.KnotFactor = 0.4 },
		} {
			l := l
			change(&l)
			worse, err := l.Hold()
			if err != nil {
				t.Fatal(err)
			}
			if worse.Factor > base.Factor || (worse.Verdict == rig.VerdictHolds && base.Verdict != rig.VerdictHolds) {
				t.Fatalf("%s is safer: %+v after %+v", name, worse, base)
			}
		}
	})
}

// FuzzNothingPanics checks that no input causes a panic or, without an error, a result that is NaN or infinite.
func FuzzNothingPanics(f *testing.F) {
	f.Add(3000.0, 1e9, 500.0, 2000.0, 1200.0, 8.0, 100.0, 0.5, 2)
	f.Add(math.NaN(), math.Inf(1), -1.0, 1e300, math.Inf(-1), 0.0, 0.0, 1e-300, -7)
	f.Add(100.0, 1e3, 100.0, 500_000.0, 50.0, 60.0, 5000.0, 0.02, 20)
	f.Add(20_000.0, 1e15, 0.0, 0.0, 0.0, 0.1, 0.1, 1.5, 1)
	f.Fuzz(func(t *testing.T, span, stiff, over, mass, at, wind, push, part float64, count int) {
		b := rig.Bar{SpanMM: span, StiffnessNMM2: stiff, RightMM: over, ModulusMM3: push,
			YieldMPa: wind, Joints: []rig.Joint{{AtMM: at, PlayRad: part / 10}}}
		if d, err := b.Dip([]rig.Load{{MassG: mass, AtMM: at}, b.Along("cloth", mass)}, rig.DipRule{}); err == nil {
			finite(t, d.DipMM, d.AtMM, d.SharePct, d.MomentNMM, d.StressMPa, d.LeftTipMM, d.RightTipMM, d.LeftPostN,
				d.RightPostN)
		}
		if b, err := rig.BenchBar(span, rig.Bench{SpanMM: over, MassG: mass, DipMM: at, StaysMM: push}); err == nil {
			finite(t, b.StiffnessNMM2)
		}
		if m, ok := rig.FindMaterial("steel"); ok {
			_, _ = rig.TubeBar(span, rig.Tube{OuterMM: over, WallMM: part, Material: m}, count, part)
		}
		frame := rig.Frame{WidthMM: span, HeightMM: at, DepthMM: over, MassG: mass, BaseDepthMM: over,
			BaseWidthMM: span, Solidity: part, Friction: part}
		if tip, err := frame.Tip(rig.Push{WindMPS: wind, PushN: push, PushAtMM: at}, rig.TipRule{}); err == nil {
			finite(t, tip.OverturnFactor, tip.SlideFactor, tip.BallastKG, tip.MaxWindMPS, tip.TakeDownMPS, tip.WindN)
		}
		if h, err := (rig.Line{MassG: mass, Points: count, AngleDeg: wind, StrengthN: push,
			KnotFactor: part}).Hold(); err == nil {
			finite(t, h.PerLineN, h.AllowedN, h.Factor)
		}
		finite(t, rig.FaceDrag(part, 2000, 1000, part).Coefficient)
	})
}

func finite(t *testing.T, values ...float64) {
	t.Helper()
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("value %d is %v", i, v)
		}
	}
}

// BenchmarkCalculators measures each calculator. The bound is a millisecond.
func BenchmarkCalculators(b *testing.B) {
	for name, run := range calculators() {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				run()
			}
		})
	}
}

func calculators() map[string]func() {
	must := func(err error) {
		if err != nil {
			panic(fmt.Sprintf("the benchmark's own input is wrong: %v", err))
		}
	}
	bar := rig.Bar{SpanMM: 2800, LeftMM: 300, RightMM: 500, StiffnessNMM2: 1e9,
		Joints: []rig.Joint{{900, 0.01}, {1900, 0.01}}}
	var loads []rig.Load
	for i := range 6 {
		loads = append(loads, rig.Load{MassG: 200, AtMM: 400 * float64(i)})
	}
	loads = append(loads, bar.Along("cloth", 1800), rig.Load{MassG: 500, Spread: true, FromMM: -300, ToMM: 3300})
	frame := rig.Frame{WidthMM: 2400, HeightMM: 2200, MassG: 18_000, BaseDepthMM: 900, BaseWidthMM: 2400,
		Solidity: 0.6, Friction: 0.3}
	return map[string]func(){
		"dip of eight loads": func() { must(second(bar.Dip(loads, rig.DipRule{}))) },
		"tip":                func() { must(second(frame.Tip(rig.Push{WindMPS: 6}, rig.TipRule{}))) },
		"line":               func() { must(second(rig.Line{MassG: 1200, Points: 2, AngleDeg: 30, StrengthN: 90}.Hold())) },
	}
}
