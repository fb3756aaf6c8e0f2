package softsphere

import "math"

// FIRE's settings: those of the paper, with the longest time step at which long strings still converge quickly, at unit
// stiffness and mass.
const (
	firstStep      = 0.1
	longestStep    = 0.4
	shortestStep   = 0.01
	stepGrows      = 1.1
	stepShrinks    = 0.5
	steerFirst     = 0.1
	steerShrinks   = 0.99
	patience       = 5
	furthestMove   = 0.1  // in mean diameters, in one step
	furthestStrain = 0.02 // of the sides, in one step
)

// pauseMoves is how many forces on balloons are computed between pauses: a millisecond or two on one core of 2024.
const pauseMoves = 10_000

// relax moves balloons (and sides, when squeezed) until no force is above tolerance times the mean diameter, or the
// steps run out. It returns the number of steps and whether everything came to rest.
func (s *system) relax(tolerance float64, most int) (int, bool) {
	clear(s.velocity)
	s.sideVelocity = 0
	step, steer, good := firstStep, steerFirst, 0
	for taken := range most {
		if s.pause != nil && s.moves-s.paused > pauseMoves {
			s.paused = s.moves
			s.pause()
		}
		s.findForces()
		s.moves += len(s.radius)
		strongest, power := s.restless()
		if strongest <= tolerance*s.scale {
			return taken, true
		}
		switch {
		case power > 0:
			if good++; good > patience {
				step = min(step*stepGrows, longestStep)
				steer *= steerShrinks
			}
		case power < 0:
			clear(s.velocity)
			s.sideVelocity = 0
			step, steer, good = max(step*stepShrinks, shortestStep), steerFirst, 0
		}
		speed, strength := s.kick(step)
		s.move(step, steer, speed, strength)
	}
	return most, false
}

// restless returns the largest remaining force component and the power, the rate at which the forces accelerate the
// balloons. A negative power means that they have passed their rest. Call it before the kick: after it, the power
// includes the kick and is hardly ever negative in long strings.
func (s *system) restless() (most, power float64) {
	most, power = math.Abs(s.sideForce), float64(s.sideVelocity*s.sideForce)
	for i, f := range s.force {
		most = max(most, math.Abs(f))
		power += float64(s.velocity[i] * f)
	}
	return most, power
}

// kick accelerates by the forces. It returns the speed and the strength of the force.
func (s *system) kick(step float64) (speed, strength float64) {
	for i, f := range s.force {
		v := s.velocity[i] + float64(step*f)
		s.velocity[i] = v
		speed += float64(v * v)
		strength += float64(f * f)
	}
	s.sideVelocity += float64(step * s.sideForce)
	speed += float64(s.sideVelocity * s.sideVelocity)
	strength += float64(s.sideForce * s.sideForce)
	return math.Sqrt(speed), math.Sqrt(strength)
}

// move turns the velocity by a share towards the force and moves the balloons, and the sides with everything inside
// them.
func (s *system) move(step, share, speed, strength float64) {
	keep, turn := 1-share, share*speed/strength
	limit := furthestMove * s.scale / step
	for i, f := range s.force {
		v := float64(keep*s.velocity[i]) + float64(turn*f)
		if v > limit || v < -limit {
			v = math.Copysign(limit, v)
		}
		s.velocity[i] = v
		s.place[i] += float64(step * v)
	}
	s.sideVelocity = float64(keep*s.sideVelocity) + float64(turn*s.sideForce)
	if !s.squeezed {
		return
	}
	strain := step * s.sideVelocity / s.sideScale()
	if math.Abs(strain) > furthestStrain {
		strain = math.Copysign(furthestStrain, strain)
		s.sideVelocity = strain * s.sideScale() / step
	}
	s.stretch(1 + strain)
}

// stretch scales the sides that the push squeezes, and the positions of the balloons.
func (s *system) stretch(factor float64) {
	for axis := range 3 {
		if !s.periodic(axis) {
			continue
		}
		s.side[axis] *= factor
		for i := axis; i < len(s.place); i += 3 {
			s.place[i] *= factor
		}
	}
}
