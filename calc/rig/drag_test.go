package rig_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/rig"
)

// TestSignboardOfEN1991 is a worked example for a signboard of 5 x 7 m, its lower edge 1.5 m up, by EN 1991-1-4 clause
// 7.4.3 (scribd.com/doc/179494512): reference height 5 m, peak pressure 1.61 kN/m², coefficient 1.80, force 101.43 kN,
// off the middle by a quarter of the width, 1.25 m. Clause 4.5 gives 0.68 kN/m² for its 33 m/s.
func TestSignboardOfEN1991(t *testing.T) {
	drag := rig.FaceDrag(1, 5000, 7000, 1500)
	assert.Equal(t, 1.80, drag.Coefficient)
	assert.Equal(t, rig.CodeEN, drag.Code)
	assert.InDelta(t, 101.43, 1.61*drag.Coefficient*5*7, 0.005)
	assert.InDelta(t, 1.25, rig.OffCentre*5, 0.005)
	assert.InDelta(t, 680, rig.WindPressurePa(33, 0), 1)
}

// TestOneFootOfTwoHolds checks what the doc comment of OffCentre says: with the ballast for a factor of 1.5, one of
// two feet with half of the weight holds the three quarters of the push that a gust off the middle brings (EN
// 1991-1-4 clause 7.4.3).
func TestOneFootOfTwoHolds(t *testing.T) {
	f := backdrop()
	tip, err := f.Tip(rig.Push{WindMPS: 9}, rig.TipRule{})
	assert.NoError(t, err)
	half := (f.MassG/1000 + tip.BallastKG) / 2 * gravity
	share := tip.WindN * (0.5 + rig.OffCentre)
	assert.GreaterOrEqual(t, half*f.BaseDepthMM/2, share*(f.BottomMM+0.55*f.HeightMM))
	assert.GreaterOrEqual(t, half*f.Friction, share)
}

// TestSolidSignsOfASCE7 are worked examples by ASCE 7. A wall sign of 100 x 8 ft with its top at 35 ft: 17.80 psf
// and G 0.85 give 22.37 kips (a published sheet for ASCE 7-05, scribd.com/document/828657211). A sign of 7.48 square
// feet, 3 ft square with its top at 20 ft: 1.80, with 56.62 psf 648 lb (a published sheet for ASCE 7-10,
// scribd.com/document/391952847).
func TestSolidSignsOfASCE7(t *testing.T) {
	wall := rig.SolidSignDrag(100.0/8, 8.0/35)
	assert.InDelta(t, 22.37, 17.80*0.85*wall*800/1000, 0.01)
	sign := rig.SolidSignDrag(1, 3.0/20)
	assert.InDelta(t, 1.80, sign, 1e-9)
	assert.InDelta(t, 648, 56.62*0.85*sign*7.48, 0.5)
}

// TestSolidSignTableFitsItsCommentary checks all 84 values against the fit that the commentary of ASCE 7-16 gives in
// section C29.3.1; the table is that fit, rounded to 0.05.
func TestSolidSignTableFitsItsCommentary(t *testing.T) {
	for _, aspect := range []float64{0.05, 0.1, 0.2, 0.5, 1, 2, 4, 5, 10, 20, 30, 45} {
		for _, clearance := range []float64{0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1} {
			x, y := math.Log(aspect), clearance
			fit := (1.563 + 0.008542*x - 0.06148*y + 0.009011*x*x - 0.2603*y*y - 0.08393*y*x) / 0.85
			assert.InDelta(t, math.Round(fit*20)/20, rig.SolidSignDrag(aspect, clearance), 1e-9, "%v %v", aspect,
				clearance)
		}
	}
	assert.Equal(t, rig.SolidSignDrag(0.05, 1), rig.SolidSignDrag(0.01, 2), "beyond the table its edge holds")
}

// TestDragOfOpenFaces checks ASCE 7-16 table 29.4-2 (flat-sided members, on their solid area): 2.0 under a solidity of
// 0.1, 1.8 to 0.29, 1.6 from 0.3 to 0.7, and the factor 1 - (1 - solidity)^1.5 of figure 29.3-1 from 0.7. The greater
// of them and of EN 1991-1-4's 1.80 counts.
func TestDragOfOpenFaces(t *testing.T) {
	for _, row := range []struct{ solidity, asce float64 }{{0.05, 2.0}, {0.2, 1.8}, {0.29, 1.8}, {0.3, 1.6},
		{0.69, 1.6}} {
		drag := rig.FaceDrag(row.solidity, 2000, 2000, 0)
		assert.InDelta(t, max(row.asce, 1.80)*row.solidity, drag.Coefficient, 1e-12, "%v", row.solidity)
	}
	assert.Equal(t, rig.CodeASCEOpen, rig.FaceDrag(0.05, 2000, 2000, 0).Code)
	narrow := rig.FaceDrag(0.8, 100, 1000, 4000)
	assert.InDelta(t, 1.90*(1-math.Pow(0.2, 1.5)), narrow.Coefficient, 1e-12)
	assert.Equal(t, rig.CodeASCE, narrow.Code)
	last := 0.0
	for s := 0.0; s <= 1; s += 0.005 {
		drag := rig.FaceDrag(s, 300, 1500, 500).Coefficient
		assert.GreaterOrEqual(t, drag, last)
		last = drag
	}
}

// TestAGrowingFrameNeverCatchesLessWind checks faces with 2 m² of bars that grow higher, so that they get more open:
// from closed, through the step between the two tables of ASCE 7-16, to a thin lattice.
func TestAGrowingFrameNeverCatchesLessWind(t *testing.T) {
	for _, width := range []float64{500, 1000, 2000, 4000} {
		last := 0.0
		for high := 2e6 / width; high < 40*2e6/width; high *= 1.01 {
			outline := width * high
			force := rig.FaceDrag(2e6/outline, width, high, 0).Coefficient * outline
			assert.GreaterOrEqual(t, force, last*(1-1e-12), "%v mm wide, %v high", width, high)
			last = force
		}
	}
}

// TestSphereDrag checks measured drag of spheres at Reynolds numbers from 1,000 to 200,000 (Indiana University of
// Pennsylvania, "The graph of log CD vs log Re").
func TestSphereDrag(t *testing.T) {
	measured := map[float64]float64{1000: .4786, 4764: .3890, 15560: .4395, 26480: .4571, 34670: .4775, 58880: .4732,
		100000: .4624, 170200: .4395}
	for reynolds, drag := range measured {
		assert.GreaterOrEqual(t, rig.SphereDrag, drag-0.01, "%v", reynolds)
		assert.LessOrEqual(t, rig.SphereDrag, drag*1.25, "%v", reynolds)
	}
}

// TestBunchInAGust is computed by hand: five 11-inch balloons sized to 279.4 mm show 5 × 0.06131 = 0.3066 m². 9 m/s
// press with 50.63 Pa (EN 1991-1-4): 50.63 × 0.47 × 0.3066 = 7.295 N, 0.74 kg. They lift 0.5 N, so the ribbons lean
// atan(7.295 / 0.5) = 86 degrees; drag equals lift at 9 × √(0.5 / 7.295) = 2.36 m/s.
func TestBunchInAGust(t *testing.T) {
	five := rig.Bunch{LiftN: 0.5, AreaM2: 5 * rig.DiscM2(279.4), Friction: 0.35}
	h := five.Hold(9, 0)
	assert.InDelta(t, 7.295, h.DragN, 0.01)
	assert.InDelta(t, 1000*math.Hypot(7.295, 0.75)/gravity, h.FixedG, 1)
	assert.InDelta(t, 748, h.FixedG, 2)
	assert.InDelta(t, 1000*(0.75+7.295/0.35)/gravity, h.LooseG, 2)
	assert.InDelta(t, 86.1, h.LeansDeg, 0.1)
	assert.InDelta(t, 2.36, h.LiesMPS, 0.01)
	calm := five.Hold(0, 0)
	assert.InDelta(t, 1000*0.75/gravity, calm.FixedG, 1e-9, "indoors one and a half times the lift")
	assert.Equal(t, calm.FixedG, calm.LooseG)
	assert.Zero(t, rig.Bunch{}.Hold(9, 0).FixedG)
}
