package rig

import (
	"fmt"
	"math"
)

// Material is the material of a tube.
type Material struct {
	Name string
	// ElasticMPa is Young's modulus in N/mm².
	ElasticMPa float64
	// YieldMPa is the stress at which it stays bent or breaks, at the low end for an unknown grade.
	YieldMPa float64
	// DensityKGM3 is its density: EN 1991-1-1 Annex A (from memory), wood as EN 338 class C24.
	DensityKGM3 float64
	// Source gives the source of the modulus; YieldMPa is from memory.
	Source, Mark string
}

var materials = [...]Material{
	{"steel", 210_000, 235, 7850, "EN 1993-1-1 clause 3.2.6", MarkPublished},
	{"aluminium", 70_000, 100, 2700, "EN 1999-1-1 clause 3.2.5", MarkPublished},
	{"wood", 11_000, 24, 420, "EN 338 class C24", MarkFromMemory},
	{"pvc", 3_000, 40, 1400, "PVC-U pipe", MarkFromMemory},
}

// MaterialNames lists the names that FindMaterial knows, stiffest first.
func MaterialNames() []string {
	var names []string
	for _, m := range materials {
		names = append(names, m.Name)
	}
	return names
}

// FindMaterial returns the material of that name, or false.
func FindMaterial(name string) (Material, bool) {
	for i := range materials {
		if materials[i].Name == name {
			return materials[i], true
		}
	}
	return Material{}, false
}

// Tube is a round tube. A wall of half the outer diameter is a solid rod.
type Tube struct {
	OuterMM, WallMM float64
	Material        Material
}

// AreaMM2 returns the area of the cross-section.
func (t Tube) AreaMM2() float64 {
	return math.Pi / 4 * (float64(t.OuterMM*t.OuterMM) - float64(t.innerMM()*t.innerMM()))
}

// InertiaMM4 returns the second moment of area.
func (t Tube) InertiaMM4() float64 {
	outer, inner := t.OuterMM*t.OuterMM, t.innerMM()*t.innerMM()
	return math.Pi / 64 * (float64(outer*outer) - float64(inner*inner))
}

// ModulusMM3 returns the elastic section modulus: the moment divided by it is the stress.
func (t Tube) ModulusMM3() float64 { return t.InertiaMM4() / (t.OuterMM / 2) }

// GramsPerMM returns the mass of the tube along its length, equal to kilograms a metre.
func (t Tube) GramsPerMM() float64 { return t.AreaMM2() * t.Material.DensityKGM3 * 1e-6 }

// StiffnessNMM2 returns E × I.
func (t Tube) StiffnessNMM2() float64 { return t.Material.ElasticMPa * t.InertiaMM4() }

func (t Tube) innerMM() float64 { return t.OuterMM - float64(2*t.WallMM) }

func (t Tube) check() error {
	if err := inside(
		limit{"tube outer diameter", t.OuterMM, 3, 300, "mm"},
		limit{"tube wall", t.WallMM, 0.1, t.OuterMM / 2, "mm"},
	); err != nil {
		return err
	}
	if !(t.Material.ElasticMPa > 0 && t.Material.ElasticMPa < 1e7) {
		return fmt.Errorf("%w: tube material %q has no modulus, known are steel, aluminium, wood and pvc", ErrInput,
			t.Material.Name)
	}
	return nil
}
