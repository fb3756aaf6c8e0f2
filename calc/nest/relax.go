package nest

import "math"

// FIRE's settings: those of the paper, with the longest time step at which
// long strings still come to rest soon, at unit stiffness and mass.
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

// course is a relaxation under way: FIRE's time step and how far it steers, and how
// many steps in a row went well.
type course struct {
	tolerance float64 // force left, in mean diameters
	most      int     // steps
	taken     int
	step      float64
	steer     float64
	good      int
	resting   bool
}

// relax moves balloons (and sides, when squeezed) until no force is above
// tolerance times the mean diameter, or the steps run out. It says how many
// steps it took and whether it came to rest.
func (s *system) relax(tolerance float64, most int) (int, bool) {
	s.begin(tolerance, most)
	for s.advance(most) {
	}
	return s.course.taken, s.course.resting
}

// begin is the start of relax, for callers that advance it a few steps at a time.
func (s *system) begin(tolerance float64, most int) {
	clear(s.velocity)
	s.sideVelocity = 0
	s.course = course{tolerance: tolerance, most: most, step: firstStep, steer: steerFirst}
}

// advance relaxes for so many steps at most and says whether there is more to do.
func (s *system) advance(steps int) bool {
	c := &s.course
	for range steps {
		if c.resting || c.taken >= c.most {
			return false
		}
		s.findForces()
		s.moves += len(s.radius)
		strongest, power := s.restless()
		if strongest <= c.tolerance*s.scale {
			c.resting = true
			return false
		}
		switch {
		case power > 0:
			if c.good++; c.good > patience {
				c.step = min(c.step*stepGrows, longestStep)
				c.steer *= steerShrinks
			}
		case power < 0:
			clear(s.velocity)
			s.sideVelocity = 0
			c.step, c.steer, c.good = max(c.step*stepShrinks, shortestStep), steerFirst, 0
		}
		speed, strength := s.kick(c.step)
		s.move(c.step, c.steer, speed, strength)
		c.taken++
	}
	return c.taken < c.most
}

// restless is the largest force component left, and the power: how fast the
// forces speed the balloons up; below zero they have gone past their rest. It is
// taken before the kick: after it, it would count the kick itself and hardly ever
// fall below zero in long strings.
func (s *system) restless() (most, power float64) {
	most, power = math.Abs(s.sideForce), float64(s.sideVelocity*s.sideForce)
	for i, f := range s.force {
		most = max(most, math.Abs(f))
		power += float64(s.velocity[i] * f)
	}
	return most, power
}

// kick speeds up by the forces; it returns the speed and the strength of force.
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

// move turns the velocity by a share towards the force and carries balloons
// along, and the sides with everything inside them.
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
