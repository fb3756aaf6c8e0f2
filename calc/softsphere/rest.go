package softsphere

// Balloon is one balloon at rest, in millimetres: z along the string, x across it as seen from the front, y towards the
// viewer. The string is at x = y = 0.
type Balloon struct {
	X, Y, Z, Radius float64
	// Cluster counts along the string from 0.
	Cluster int
	// Kind is the balloon's index in the list of diameters.
	Kind int
}

// Rest holds the positions in which balloons come to rest.
type Rest struct {
	// Balloons are listed cluster after cluster.
	Balloons []Balloon
	Clusters int
	// LengthMM is the length after which the string repeats; 0 for a free cluster.
	LengthMM float64
	// AxialForce is the force that holds the string together lengthwise, in mm of overlap at
	// one contact (from the virial: minus the change of energy with length).
	AxialForce float64
	// Steps is the number of steps of the relaxation. Settled is false if they ran out before every force balanced.
	Steps   int
	Settled bool
	// Moves is the number of force computations for single balloons: the cost of the relaxation.
	Moves int
}

// PitchMM returns the distance between clusters; 0 for a free cluster.
func (r Rest) PitchMM() float64 {
	if r.Clusters == 0 {
		return 0
	}
	return r.LengthMM / float64(r.Clusters)
}

// rest returns the positions of a relaxed system.
func (s *system) rest(steps int, settled bool) Rest {
	perCluster := len(s.radius) / s.clusters
	rest := Rest{Balloons: make([]Balloon, len(s.radius)), Clusters: s.clusters, Steps: steps, Settled: settled,
		Moves: s.moves}
	if s.space == string1D {
		rest.LengthMM = s.side[2]
		rest.AxialForce = s.virial / s.side[2]
	}
	for i, radius := range s.radius {
		rest.Balloons[i] = Balloon{
			X: s.place[3*i], Y: s.place[3*i+1], Z: s.place[3*i+2], Radius: radius,
			Cluster: int(s.cluster[i]), Kind: i % perCluster,
		}
	}
	return rest
}
