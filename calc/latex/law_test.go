package latex_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"garlandry/calc/latex"
)

var roundSizes = []int{5, 9, 10, 11, 12, 16, 18, 24, 36}

func drawBalloon(t *rapid.T) (latex.Size, float64) {
	s, _ := latex.Find(rapid.SampledFrom(roundSizes).Draw(t, "size"))
	return s, s.FullMM() * rapid.Float64Range(0.31, 1.09).Draw(t, "fill")
}

func drawPlace(t *rapid.T, name string) latex.Place {
	return latex.Place{
		TempC:       rapid.Float64Range(latex.MinTempC, latex.MaxTempC-6).Draw(t, name+" °C"),
		AltitudeM:   rapid.Float64Range(latex.MinAltitudeM, latex.MaxAltitudeM-100).Draw(t, name+" m"),
		HumidityPct: rapid.Float64Range(0, 99).Draw(t, name+" %"),
	}
}

func grow(t *rapid.T, s latex.Size, mm float64, from, to latex.Place) float64 {
	got, err := latex.Grow(s.Skin(), mm, from, to)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// TestGrowLaws checks that warmer, higher or fuller never means smaller, that going back restores the size, and that a
// stop on the way changes nothing.
func TestGrowLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, mm := drawBalloon(t)
		from, to, stop := drawPlace(t, "from"), drawPlace(t, "to"), drawPlace(t, "stop")
		got := grow(t, s, mm, from, to)
		warmer, higher := to, to
		warmer.TempC += rapid.Float64Range(0.001, 5).Draw(t, "warmer by")
		higher.AltitudeM += rapid.Float64Range(0.1, 100).Draw(t, "higher by")
		if grow(t, s, mm, from, warmer) <= got || grow(t, s, mm, from, higher) <= got {
			t.Fatalf("%v mm shrank in warmth or height", got)
		}
		if grow(t, s, mm*1.0001, from, to) <= got {
			t.Fatal("a fuller balloon is smaller at the show")
		}
		for _, again := range []float64{grow(t, s, got, to, from) / mm,
			grow(t, s, grow(t, s, mm, from, stop), stop, to) / got} {
			if math.Abs(again-1) > 1e-12 {
				t.Fatalf("a stop on the way changes the result: %v", again)
			}
		}
	})
}

// TestGasLaws checks that more fill never holds less, that no balloon holds less than its sphere or more than half as
// much again, and that the gas has no jump.
func TestGasLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, mm := drawBalloon(t)
		more := mm + rapid.Float64Range(1e-6, 50).Draw(t, "more by")
		if s.VolumeL(more) <= s.VolumeL(mm) {
			t.Fatalf("%v mm hold %v L, %v mm hold %v L", mm, s.VolumeL(mm), more, s.VolumeL(more))
		}
		if ratio := s.VolumeL(mm) / latex.VolumeL(mm); ratio < 1 || ratio > 1.5 {
			t.Fatalf("%v times the sphere at %v mm", ratio, mm)
		}
		if jump := s.VolumeL(mm*(1+1e-9)) / s.VolumeL(mm); jump > 1+1e-7 {
			t.Fatalf("the gas jumps by %v at %v mm", jump, mm)
		}
	})
}

// TestLiftLaws checks that warmth never increases a balloon's lift or float time, and that extra weight never increases
// its lift.
func TestLiftLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, mm := drawBalloon(t)
		in := latex.LiftInput{
			Size: s, ToMM: mm, Air: drawPlace(t, "air"), ExtraG: rapid.Float64Range(0, 20).Draw(t, "extra"),
			Cylinder: latex.Cylinder{Litres: 50, GaugeBar: rapid.Float64Range(1, 300).Draw(t, "bar"), TempC: 20},
		}
		got, err := latex.Floating(in)
		if err != nil {
			t.Fatal(err)
		}
		worse := map[string]func(*latex.LiftInput){
			"warmer":      func(in *latex.LiftInput) { in.Air.TempC += 5 },
			"higher":      func(in *latex.LiftInput) { in.Air.AltitudeM += 100 },
			"damper":      func(in *latex.LiftInput) { in.Air.HumidityPct++ },
			"heavier":     func(in *latex.LiftInput) { in.ExtraG++ },
			"less helium": func(in *latex.LiftInput) { in.PurityPct = 97 },
		}
		for name, change := range worse {
			other := in
			change(&other)
			l, err := latex.Floating(other)
			if err != nil {
				t.Fatal(err)
			}
			if l.NetG > got.NetG || l.FloatHours > got.FloatHours || l.BallastG > got.BallastG {
				t.Fatalf("%s lifts more: %+v after %+v", name, l, got)
			}
		}
		less := in
		less.Cylinder.GaugeBar *= 0.9
		if l, _ := latex.Floating(less); l.PerCylinder > got.PerCylinder {
			t.Fatal("less gas fills more balloons")
		}
	})
}

// FuzzNothingPanics checks that no input causes a panic or, without an error, a result that is NaN or infinite.
func FuzzNothingPanics(f *testing.F) {
	f.Add(11, 254.0, 20.0, 0.0, 30.0, 1000.0, 50.0, 200.0)
	f.Add(-5, math.NaN(), math.Inf(1), -1e300, 0.0, math.Inf(-1), 1e300, -1.0)
	f.Add(36, 900.0, -40.0, 6000.0, 80.0, -500.0, 1e-300, 350.0)
	f.Add(11, math.NaN(), math.Inf(1), -1e300, 0.0, math.Inf(-1), 1e300, -1.0)
	f.Add(5, 38.1, 80.0, -500.0, -40.0, 6000.0, 1000.0, 0.0)
	f.Fuzz(func(t *testing.T, nominal int, mm, c1, m1, c2, m2, litres, bar float64) {
		s, _ := latex.Find(nominal)
		from, to := latex.Place{TempC: c1, AltitudeM: m1, HumidityPct: m2}, latex.Place{TempC: c2, AltitudeM: m2}
		if g, err := latex.Heat(s, mm, from, to); err == nil {
			finite(t, g.ShowMM, g.VolumeRatio, g.FillToMM, g.FillPctAtShow, g.ShowPressurePa)
		}
		if b, err := latex.Describe(s, mm); err == nil {
			finite(t, b.VolumeL, b.PressurePa, b.FillPct, b.CircumferenceMM)
		}
		l, err := latex.Floating(
			latex.LiftInput{Size: s, ToMM: mm, Air: from, ExtraG: m2,
				Cylinder: latex.Cylinder{Litres: litres, GaugeBar: bar, TempC: c2}},
		)
		if err == nil {
			finite(t, l.GrossG, l.NetG, l.BallastG, l.FloatHours, float64(l.PerCylinder))
		}
		finite(t, s.VolumeL(math.Mod(mm, 1e6)), latex.FloatHours(mm, c1, m1, c2, m2), s.FillPct(math.Mod(mm, 1e6)))
		k, p, d := latex.StandardAir(m1)
		finite(t, k, p, d)
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
	s, _ := latex.Find(11)
	must := func(err error) {
		if err != nil {
			panic(fmt.Sprintf("the benchmark's own input is wrong: %v", err))
		}
	}
	return map[string]func(){
		"size": func() { must(second(latex.Describe(s, 254))) },
		"heat": func() {
			must(second(latex.Heat(s, 254, latex.Place{TempC: 15}, latex.Place{TempC: 30, AltitudeM: 800})))
		},
		"lift": func() {
			must(
				second(
					latex.Floating(
						latex.LiftInput{Size: s, ToMM: 270, Air: latex.Place{TempC: 20, HumidityPct: 50},
							Cylinder: latex.Cylinder{Litres: 50, GaugeBar: 200, TempC: 15}},
					),
				),
			)
		},
	}
}
