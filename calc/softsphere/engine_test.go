package softsphere

// These are internal tests: from outside one cannot see that forces are the gradient of the energy, nor that the loop
// allocates no memory.

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func shaken(t *testing.T) *system {
	t.Helper()
	s, _ := apartOnString([]float64{1, 1, 1, 1, 1.6, 1.6}, 10, 5, nil)
	s.squeezed, s.push = true, 0.2*s.scale
	s.relax(1e-9, 120)
	s.findForces()
	strongest, _ := s.restless()
	require.Greater(t, strongest, 1e-6, "still moving")
	return s
}

func TestForcesAreTheGradientOfTheEnergy(t *testing.T) {
	const small = 1e-6
	s := shaken(t)
	forces := append([]float64(nil), s.force...)
	for i := 0; i < len(s.place); i += 7 {
		was := s.place[i]
		s.place[i] = was + small
		s.findForces()
		up := s.energy
		s.place[i] = was - small
		s.findForces()
		down := s.energy
		s.place[i] = was
		assert.InDelta(t, -(up-down)/(2*small), forces[i], 1e-6, "component %d", i)
	}
}

func TestVirialIsTheSlopeAlongTheString(t *testing.T) {
	const small = 1e-7
	s := shaken(t)
	virial := s.virial
	s.stretch(1 + small)
	s.findForces()
	up := s.energy
	s.stretch((1 - small) / (1 + small))
	s.findForces()
	down := s.energy
	assert.InEpsilon(t, virial, -(up-down)/(2*small), 1e-4)
}

func TestGridFindsEveryContact(t *testing.T) {
	s := shaken(t)
	listed := map[[2]int]bool{}
	s.grid.valid = false
	s.refresh()
	for _, p := range s.grid.pairs {
		key := [2]int{int(min(p.i, p.j)), int(max(p.i, p.j))}
		require.False(t, listed[key], "listed twice")
		listed[key] = true
	}
	contacts := 0
	for i := range s.radius {
		for j := range i {
			dx, dy, dz := s.apart(i, j)
			touch := s.radius[i] + s.radius[j]
			if dx*dx+dy*dy+dz*dz < touch*touch {
				contacts++
				assert.True(t, listed[[2]int{j, i}], "balloons %d and %d", j, i)
			}
		}
	}
	assert.Greater(t, contacts, 100)
}

func TestLoopAllocatesNothing(t *testing.T) {
	s := shaken(t)
	taken := testing.AllocsPerRun(20, func() { s.relax(0, 20) })
	assert.Zero(t, taken)
}
