package rig_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/rig"
)

// TestTubeSections checks EN 10210-2, circular hollow sections: area cm², second moment cm⁴, elastic modulus cm³, mass
// kg/m at 7850 kg/m³, within half of the last printed digit.
func TestTubeSections(t *testing.T) {
	steel, ok := rig.FindMaterial("steel")
	require.True(t, ok)
	for _, row := range []struct {
		outer, wall, area, inertia, modulus, mass float64
		areaDigit, inertiaDigit, modulusDigit     float64
	}{
		{48.3, 3.2, 4.53, 11.6, 4.80, 3.56, 0.01, 0.1, 0.01},
		{60.3, 3.2, 5.74, 23.5, 7.78, 4.51, 0.01, 0.1, 0.01},
		{42.4, 2.6, 3.25, 6.46, 3.05, 2.55, 0.01, 0.01, 0.01},
		{33.7, 2.6, 2.54, 3.09, 1.84, 1.99, 0.01, 0.01, 0.01},
	} {
		tube := rig.Tube{OuterMM: row.outer, WallMM: row.wall, Material: steel}
		name := fmt.Sprintf("%.1f x %.1f", row.outer, row.wall)
		assert.InDelta(t, row.area, tube.AreaMM2()/100, row.areaDigit/2+1e-9, name)
		assert.InDelta(t, row.inertia, tube.InertiaMM4()/1e4, row.inertiaDigit/2+1e-9, name)
		assert.InDelta(t, row.modulus, tube.ModulusMM3()/1e3, row.modulusDigit/2+1e-9, name)
		assert.InDelta(t, row.mass, tube.GramsPerMM(), 0.005+1e-9, name)
	}
	// A wall of half the diameter is a rod: pi d⁴/64 (geometry).
	rod := rig.Tube{OuterMM: 20, WallMM: 10, Material: steel}
	assert.InEpsilon(t, 7853.98, rod.InertiaMM4(), 1e-6)
}

// TestMaterials checks EN 1993-1-1 clause 3.2.6 and EN 1999-1-1 clause 3.2.5 (from memory).
func TestMaterials(t *testing.T) {
	for name, modulus := range map[string]float64{"steel": 210_000, "aluminium": 70_000} {
		m, ok := rig.FindMaterial(name)
		require.True(t, ok)
		assert.Equal(t, modulus, m.ElasticMPa)
		assert.Equal(t, rig.MarkPublished, m.Mark)
	}
	// Densities of EN 1991-1-1 Annex A; PVC-U pipe about 3000 N/mm², wood of class C24 in EN 338 11,000 (all from
	// memory), for an unknown grade.
	for name, row := range map[string]struct{ density, modulus float64 }{
		"steel": {7850, 210_000}, "aluminium": {2700, 70_000}, "pvc": {1400, 3000}, "wood": {420, 11_000},
	} {
		m, ok := rig.FindMaterial(name)
		require.True(t, ok)
		assert.InEpsilon(t, row.density, m.DensityKGM3, 0.05, name)
		assert.InEpsilon(t, row.modulus, m.ElasticMPa, 0.1, name)
	}
	_, ok := rig.FindMaterial("cardboard")
	assert.False(t, ok)
}
