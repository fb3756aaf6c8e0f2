package softsphere

import "math"

// NeckStiffness is the stiffness of a neck's pull as a share of the stiffness of a contact (prototype value, chosen so
// that necks gather a cluster without crushing it; no source).
const NeckStiffness = 0.2

// findForces computes force, energy, virial and the force on the sides.
func (s *system) findForces() {
	s.refresh()
	clear(s.force)
	s.energy, s.virial = 0, 0
	s.pressBalloons()
	if s.neck > 0 {
		s.pullNecks()
	}
	s.sideForce = 0
	if s.squeezed {
		s.sideForce = (s.virial - s.resistance()) / s.sideScale()
	}
}

// resistance returns the energy that the push removes per share of squeeze.
func (s *system) resistance() float64 {
	if s.space == bulk3D {
		return 3 * s.push * s.side[0] * s.side[1] * s.side[2]
	}
	return s.push * s.side[2]
}

// sideScale gives the coordinate of the sides the mass and stiffness of one balloon's.
func (s *system) sideScale() float64 {
	return s.scale * math.Sqrt(float64(len(s.radius)))
}

// pressBalloons adds the contacts.
func (s *system) pressBalloons() {
	force, radius := s.force, s.radius
	for _, p := range s.grid.pairs {
		i, j := int(p.i), int(p.j)
		dx, dy, dz := s.apart(i, j)
		touch := radius[i] + radius[j]
		square := float64(dx*dx) + float64(dy*dy) + float64(dz*dz)
		if square >= touch*touch || square == 0 {
			continue
		}
		distance := math.Sqrt(square)
		overlap := touch - distance
		share := overlap / distance
		fx, fy, fz := float64(share*dx), float64(share*dy), float64(share*dz)
		i, j = 3*i, 3*j
		force[i] += fx
		force[i+1] += fy
		force[i+2] += fz
		force[j] -= fx
		force[j+1] -= fy
		force[j+2] -= fz
		s.energy += float64(overlap * overlap / 2)
		s.virial += float64(fz * dz)
		if s.space == bulk3D {
			s.virial += float64(fx*dx) + float64(fy*dy)
		}
	}
}

// pullNecks adds the necks: a weak pull if the neck is stretched, and a strong push if the knot would be inside the
// balloon.
func (s *system) pullNecks() {
	mean := s.meanStretch()
	for i, r := range s.radius {
		x, y, z := s.place[3*i], s.place[3*i+1], s.place[3*i+2]-s.knot(s.cluster[i])
		distance := math.Sqrt(float64(x*x) + float64(y*y) + float64(z*z))
		if distance == 0 {
			continue
		}
		stretch := distance - r
		pull, energy := neckPull(s.neck, stretch, mean, s.twisted)
		share := -pull / distance
		fz := float64(share * z)
		s.force[3*i] += float64(share * x)
		s.force[3*i+1] += float64(share * y)
		s.force[3*i+2] += fz
		s.energy += energy
		s.virial += float64(fz * z)
	}
	if s.flat {
		for i := 2; i < len(s.force); i += 3 {
			s.force[i] = 0
		}
	}
}

// neckPull returns the pull of one neck and its energy. Twisted necks are equally long: they share the weak pull and
// resist differences.
func neckPull(stiffness, stretch, mean float64, twisted bool) (pull, energy float64) {
	switch {
	case stretch < 0:
		return stretch, float64(stretch * stretch / 2)
	case twisted:
		differs := stretch - mean
		pull = float64(stiffness*mean) + differs
		return pull, float64(stiffness*mean*mean/2) + float64(differs*differs/2)
	}
	pull = float64(stiffness * stretch)
	return pull, float64(pull * stretch / 2)
}

// meanStretch returns the length of the twisted necks of a free cluster.
func (s *system) meanStretch() float64 {
	if !s.twisted {
		return 0
	}
	sum := 0.0
	for i, r := range s.radius {
		x, y, z := s.place[3*i], s.place[3*i+1], s.place[3*i+2]
		sum += max(0, math.Sqrt(float64(x*x)+float64(y*y)+float64(z*z))-r)
	}
	return sum / float64(len(s.radius))
}
