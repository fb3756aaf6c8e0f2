package nest

import "math"

// FIRE's settings: those of the paper, with the longest time step at which
// clusters of sixteen still come to rest, at unit stiffness and mass (tried: 0.3
// and more never settles for them).
const (
	firstStep      = 0.1
	longestStep    = 0.2
	shortestStep   = 0.01
	stepGrows      = 1.1
	stepShrinks    = 0.5
	steerFirst     = 0.1
	steerShrinks   = 0.99
	patience       = 5
	furthestMove   = 0.1  // in mean diameters, in one step
	furthestStrain = 0.02 // of the sides, in one step
)

// relax moves balloons (and sides, when squeezed) until no force is above
// tolerance times the mean diameter, or the steps run out. It says how many
// steps it took and whether it came to rest.
func (s *system) relax(tolerance float64, most int) (int, bool) {
	clear(s.velocity)
	s.sideVelocity = 0
	step, steer, good := firstStep, steerFirst, 0
	for taken := range most {
		s.findForces()
		if s.restless() <= tolerance*s.scale {
			return taken, true
		}
		power, speed, strength := s.kick(step)
		if power > 0 {
			s.steer(steer, speed, strength)
			if good++; good > patience {
				step = min(step*stepGrows, longestStep)
				steer *= steerShrinks
			}
		} else {
			clear(s.velocity)
			s.sideVelocity = 0
			step, steer, good = step*stepShrinks, steerFirst, 0
			step = max(step, shortestStep)
		}
		s.move(step)
	}
	return most, false
}

// restless is the largest force component left.
func (s *system) restless() float64 {
	most := math.Abs(s.sideForce)
	for _, f := range s.force {
		most = max(most, math.Abs(f))
	}
	return most
}

// kick speeds up by the forces; it returns power, speed and strength of force.
func (s *system) kick(step float64) (power, speed, strength float64) {
	for i, f := range s.force {
		v := s.velocity[i] + float64(step*f)
		s.velocity[i] = v
		power += float64(v * f)
		speed += float64(v * v)
		strength += float64(f * f)
	}
	s.sideVelocity += float64(step * s.sideForce)
	power += float64(s.sideVelocity * s.sideForce)
	speed += float64(s.sideVelocity * s.sideVelocity)
	strength += float64(s.sideForce * s.sideForce)
	return power, math.Sqrt(speed), math.Sqrt(strength)
}

// steer turns the velocity towards the force.
func (s *system) steer(share, speed, strength float64) {
	keep, turn := 1-share, share*speed/strength
	for i, f := range s.force {
		s.velocity[i] = float64(keep*s.velocity[i]) + float64(turn*f)
	}
	s.sideVelocity = float64(keep*s.sideVelocity) + float64(turn*s.sideForce)
}

// move carries balloons along, and the sides with everything inside them.
func (s *system) move(step float64) {
	limit := furthestMove * s.scale / step
	for i, v := range s.velocity {
		if v > limit || v < -limit {
			v = math.Copysign(limit, v)
			s.velocity[i] = v
		}
		s.place[i] += float64(step * v)
	}
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

// stretch scales the sides the push squeezes, with the balloons between them.
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
