package latex_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/latex"
)

func ratio(t *testing.T, k latex.Skin, fromC, toC float64) float64 {
	t.Helper()
	mm, err := latex.Grow(k, 250, latex.Place{TempC: fromC}, latex.Place{TempC: toC})
	require.NoError(t, err)
	return mm * mm * mm / (250 * 250 * 250)
}

// TestCharlesExamples checks Charles's law, the limit of no rubber pressure, against worked examples from school
// chemistry pages. Volumes are litres, temperatures °C.
func TestCharlesExamples(t *testing.T) {
	for _, row := range []struct {
		name             string
		fromL, fromC     float64
		toL, toC, within float64
	}{
		{"thoughtco.com, 27 to 127 °C is 4/3", 3, 27, 4, 127, 4e-3},
		{"socratic.org, 2.3 L at 24 °C to 3.0 L at 387 K", 2.3, 24, 3.0, 387.4 - 273.15, 3e-3},
		{"socratic.org, 5.75 L at 22 °C to 5.38 L at 276 K", 5.75, 22, 5.38, 2.85, 5e-3},
		{"scienceaq.com, 0.75 L cooled to -100 °C", 0.75, 25, 0.4357, -100, 1e-3},
		{"socratic.org, 14 L at 302 K to 20 L at 431.43 K", 14, 302 - 273.15, 20, 431.43 - 273.15, 2e-3},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.InDelta(t, row.toL, row.fromL*ratio(t, latex.Skin{}, row.fromC, row.toC), row.within)
		})
	}
}

// TestCharlesIsTheLimit checks that thinner rubber is closer to Charles's law, in proportion.
func TestCharlesIsTheLimit(t *testing.T) {
	charles := ratio(t, latex.Skin{}, 10, 45)
	gap := func(thick float64) float64 {
		return ratio(t, latex.Skin{RadiusMM: 35, ThicknessMM: thick}, 10, 45) - charles
	}
	assert.InEpsilon(t, 318.15/283.15, charles, 1e-12)
	assert.InEpsilon(t, 10, gap(0.02)/gap(0.002), 0.02)
	assert.InDelta(t, 0, gap(1e-7), 1e-8)
	assert.Greater(t, gap(0.2), -0.01)
}

// TestAltitudeIsBoyle checks Boyle's law by hand: from sea level to 1000 m (89,874.6 Pa, ISO 2533) a free gas grows by
// 101325/89874.6.
func TestAltitudeIsBoyle(t *testing.T) {
	mm, err := latex.Grow(latex.Skin{}, 250, latex.Place{TempC: 20}, latex.Place{TempC: 20, AltitudeM: 1000})
	require.NoError(t, err)
	assert.InEpsilon(t, 101_325/89_874.6, mm*mm*mm/(250*250*250), 1e-6)
}

// TestHeatIsInEquilibrium checks that the answer satisfies n R T = (air + rubber) V, computed by hand.
func TestHeatIsInEquilibrium(t *testing.T) {
	for _, s := range latex.Sizes() {
		if s.Modelling() {
			continue
		}
		fill, show := latex.Place{TempC: 16}, latex.Place{TempC: 31, AltitudeM: 700}
		g, err := latex.Heat(s, s.DecorToMM(), fill, show)
		require.NoError(t, err)
		k := s.Skin()
		before := (fill.AirPa() + k.PressurePa(s.DecorToMM())) * s.VolumeL(s.DecorToMM()) / 289.15
		after := (show.AirPa() + k.PressurePa(g.ShowMM)) * s.VolumeL(g.ShowMM) / 304.15
		assert.InEpsilon(t, before, after, 1e-12, s.NominalIn)
		// Filled to FillToMM, it must have the wanted size at the show.
		back, err := latex.Heat(s, g.FillToMM, fill, show)
		require.NoError(t, err)
		assert.InEpsilon(t, s.DecorToMM(), back.ShowMM, 1e-12, s.NominalIn)
		assert.InEpsilon(t, g.VolumeRatio, s.VolumeL(g.ShowMM)/s.VolumeL(s.DecorToMM()), 1e-12)
	}
}

// TestThreeDegreesAreOnePercent checks "1 % of volume for about 3 °C", which is common practice.
func TestThreeDegreesAreOnePercent(t *testing.T) {
	s, _ := latex.Find(11)
	g, err := latex.Heat(s, 254, latex.Place{TempC: 20}, latex.Place{TempC: 23})
	require.NoError(t, err)
	assert.InDelta(t, 1.01, g.VolumeRatio, 0.001)
}

// TestFullStaysFull checks that rounding makes a full balloon that stays in place no fuller.
func TestFullStaysFull(t *testing.T) {
	for _, s := range latex.Sizes() {
		if s.Modelling() {
			continue
		}
		for celsius := 5.0; celsius < 40; celsius++ {
			g, err := latex.Heat(s, s.FullMM(), latex.Place{TempC: celsius}, latex.Place{TempC: celsius})
			require.NoError(t, err)
			assert.NotContains(t, strings.Join(g.Notes, " "), "past full", "size %d at %g °C", s.NominalIn, celsius)
		}
	}
}

func TestHeatNotesAndErrors(t *testing.T) {
	s, _ := latex.Find(11)
	g, err := latex.Heat(s, 0.98*s.FullMM(), latex.Place{TempC: 10}, latex.Place{TempC: 60})
	require.NoError(t, err)
	assert.Greater(t, g.FillPctAtShow, 100.0)
	assert.Len(t, g.Notes, 2)

	long, _ := latex.Find(260)
	for name, err := range map[string]error{
		"modelling":         second(latex.Heat(long, 50, latex.Place{}, latex.Place{})),
		"no size":           second(latex.Heat(latex.Size{}, 50, latex.Place{}, latex.Place{})),
		"too big":           second(latex.Heat(s, 400, latex.Place{}, latex.Place{})),
		"too hot":           second(latex.Heat(s, 254, latex.Place{}, latex.Place{TempC: 200})),
		"too high":          second(latex.Heat(s, 254, latex.Place{AltitudeM: 9000}, latex.Place{})),
		"negative pressure": second(latex.Heat(s, 254, latex.Place{PressurePa: -1}, latex.Place{})),
		"bad skin":          second(latex.Grow(latex.Skin{RadiusMM: -1, ThicknessMM: 1}, 254, latex.Place{}, latex.Place{})),
	} {
		assert.ErrorIs(t, err, latex.ErrInput, name)
	}
}

func second[T any](_ T, err error) error { return err }

func ExampleHeat() {
	eleven, _ := latex.Find(11)
	// Filled in a cool garage, shown in a warm reading room.
	g, _ := latex.Heat(eleven, eleven.DecorToMM(), latex.Place{TempC: 12}, latex.Place{TempC: 24})
	fmt.Printf("254 mm becomes %.0f mm, %.1f %% more air; size it to %.0f mm\n",
		g.ShowMM, 100*(g.VolumeRatio-1), g.FillToMM)
	// Output: 254 mm becomes 257 mm, 4.2 % more air; size it to 251 mm
}

func ExampleDescribe() {
	eleven, _ := latex.Find(11)
	b, _ := latex.Describe(eleven, 254)
	fmt.Printf("%.1f L, %.0f %% full, %.0f mm round, %.1f kPa\n", b.VolumeL, b.FillPct, b.CircumferenceMM,
		b.PressurePa/1000)
	// Output: 8.9 L, 91 % full, 798 mm round, 2.3 kPa
}

// TestFillingPastFullIsSaid fills warm what is shown cold. A balloon that is to be full in the cold would be past full.
func TestFillingPastFullIsSaid(t *testing.T) {
	eleven, _ := latex.Find(11)
	for toIn, past := range map[float64]bool{10: false, 11: true} {
		g, err := latex.Heat(eleven, toIn*latex.MMPerInch, latex.Place{TempC: 40}, latex.Place{})
		require.NoError(t, err)
		assert.Equal(t, past, g.FillToMM > eleven.FullMM(), toIn)
		assert.Equal(t, past, strings.Contains(strings.Join(g.Notes, " "), "past full"), "%g in: %v", toIn, g.Notes)
	}
}
