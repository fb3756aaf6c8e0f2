package softsphere_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

// hill is a second small program for the model of the package's doc comment. It shares nothing with the first: it has
// no forces and no neighbour lists, only energies over every pair. It is the Metropolis method at temperature zero
// (Metropolis, Rosenbluth, Rosenbluth, Teller and Teller, Journal of Chemical Physics 21, 1953, 1087): it moves a
// balloon, or the length with all balloons along it, at random and keeps moves that lower the energy.
type hill struct {
	diameters []float64 // of one cluster
	clusters  int       // 0: one free cluster, its necks twisted
	at        [][3]float64
	length    float64
	push      float64
	rng       *rand.Rand
}

func (h *hill) diameter(i int) float64 { return h.diameters[i%len(h.diameters)] }

func (h *hill) knot(i int) float64 {
	if h.clusters == 0 {
		return 0
	}
	return (float64(i/len(h.diameters)) + 0.5) * h.length / float64(h.clusters)
}

func (h *hill) contact(i, j int) float64 {
	z := h.at[i][2] - h.at[j][2]
	if h.clusters > 0 {
		if z > h.length/2 {
			z -= h.length
		} else if z < -h.length/2 {
			z += h.length
		}
	}
	overlap := max((h.diameter(i)+h.diameter(j))/2-long(h.at[i][0]-h.at[j][0], h.at[i][1]-h.at[j][1], z), 0)
	return overlap * overlap / 2
}

func (h *hill) stretch(i int) float64 {
	return long(h.at[i][0], h.at[i][1], h.at[i][2]-h.knot(i)) - h.diameter(i)/2
}

func long(x, y, z float64) float64 { return math.Sqrt(x*x + y*y + z*z) }

// necks returns the energy of all necks of a free cluster, or of one neck on a string.
func (h *hill) necks(i int) float64 {
	if h.clusters > 0 {
		s := h.stretch(i)
		if s < 0 {
			return s * s / 2
		}
		return softsphere.NeckStiffness * s * s / 2
	}
	mean, sum := 0.0, 0.0
	for k := range h.at {
		mean += max(h.stretch(k), 0) / float64(len(h.at))
	}
	for k := range h.at {
		if s := h.stretch(k); s < 0 {
			sum += s * s / 2
		} else {
			sum += 0.01*mean*mean/2 + (s-mean)*(s-mean)/2
		}
	}
	return sum
}

func (h *hill) energyOf(i int) float64 {
	sum := h.necks(i)
	for j := range h.at {
		if j != i {
			sum += h.contact(i, j)
		}
	}
	return sum
}

func (h *hill) whole() float64 {
	sum := h.push * h.length
	for i := range h.at {
		sum += h.necks(i)
		for j := range i {
			sum += h.contact(i, j)
		}
	}
	return sum
}

// descend makes sweeps of moves, which get shorter as fewer of them are kept.
func (h *hill) descend(sweeps int) {
	mean := 0.0
	for _, d := range h.diameters {
		mean += d / float64(len(h.diameters))
	}
	reach, strain := 0.1*mean, 0.01
	for range sweeps {
		stood := 0
		for i := range h.at {
			was, before := h.at[i], h.energyOf(i)
			for axis := range 3 {
				h.at[i][axis] += reach * (2*h.rng.Float64() - 1)
			}
			if h.energyOf(i) < before {
				stood++
			} else {
				h.at[i] = was
			}
		}
		if stood*4 < len(h.at) {
			reach = max(reach*0.95, 1e-6*mean)
		} else {
			reach = min(reach*1.05, 0.1*mean)
		}
		if h.clusters == 0 {
			continue
		}
		for range 3 {
			before, factor := h.whole(), 1+strain*(2*h.rng.Float64()-1)
			h.scale(factor)
			if h.whole() < before {
				strain = min(strain*1.3, 0.01)
			} else {
				h.scale(1 / factor)
				strain = max(strain*0.9, 1e-6)
			}
		}
	}
}

func (h *hill) scale(factor float64) {
	h.length *= factor
	for i := range h.at {
		h.at[i][2] *= factor
	}
}

// start places balloons at random around their knots.
func (h *hill) start(balloons int) {
	h.at = make([][3]float64, balloons)
	for i := range h.at {
		away := h.diameter(i) * (0.5 + h.rng.Float64()/2)
		up, round := 2*h.rng.Float64()-1, 2*math.Pi*h.rng.Float64()
		flat := math.Sqrt(1 - up*up)
		h.at[i] = [3]float64{away * flat * math.Cos(round), away * flat * math.Sin(round), h.knot(i) + away*up}
	}
}

// look measures the visible width of a string by shooting rays across it: at random stations and from random angles, it
// finds the outermost of the balls that a plane across the string cuts. It returns the mean and the largest.
func (h *hill) look(shots int) (width, widest float64) {
	for range shots {
		at, turn := h.rng.Float64()*h.length, 2*math.Pi*h.rng.Float64()
		low, high := 0.0, 0.0
		for i, c := range h.at {
			z := math.Remainder(c[2]-at, h.length)
			if square := h.diameter(i)*h.diameter(i)/4 - z*z; square > 0 {
				x := c[0]*math.Cos(turn) + c[1]*math.Sin(turn)
				if low == high {
					low, high = x, x
				}
				low, high = min(low, x-math.Sqrt(square)), max(high, x+math.Sqrt(square))
			}
		}
		width += (high - low) / float64(shots)
		widest = max(widest, high-low)
	}
	return width, widest
}

// hold returns the diameter of the smallest sphere about all balls. It moves the sphere's centre at random and keeps
// moves that make it smaller.
func (h *hill) hold() float64 {
	radius := func(c [3]float64) (most float64) {
		for i, at := range h.at {
			most = max(most, long(at[0]-c[0], at[1]-c[1], at[2]-c[2])+h.diameter(i)/2)
		}
		return most
	}
	var centre [3]float64
	least, reach := radius(centre), h.diameter(0)
	for range 20_000 {
		tried := centre
		for axis := range tried {
			tried[axis] += reach * (2*h.rng.Float64() - 1)
		}
		if r := radius(tried); r < least {
			least, centre = r, tried
		} else {
			reach = max(reach*0.999, 1e-6*least)
		}
	}
	return 2 * least
}

// silhouette returns the diameter of the disc that hides as much as the balls do. It shoots parallel rays from random
// directions through a disc that holds everything, and counts those that hit a ball.
func (h *hill) silhouette(shots int) float64 {
	reach := 0.0
	for i, at := range h.at {
		reach = max(reach, long(at[0], at[1], at[2])+h.diameter(i)/2)
	}
	hits := 0
	for range shots {
		var ray, side [3]float64
		for axis := range ray {
			ray[axis], side[axis] = h.rng.NormFloat64(), h.rng.NormFloat64()
		}
		// The point is uniform in the disc across the ray: a normal direction across it, with the root of a uniform
		// share.
		along := dot(ray, side) / dot(ray, ray)
		for axis := range side {
			side[axis] -= along * ray[axis]
		}
		away := reach * math.Sqrt(h.rng.Float64()) / math.Sqrt(dot(side, side))
		for i, at := range h.at {
			var off [3]float64
			for axis := range off {
				off[axis] = at[axis] - away*side[axis]
			}
			along := dot(ray, off)
			if dot(off, off)-along*along/dot(ray, ray) < h.diameter(i)*h.diameter(i)/4 {
				hits++
				break
			}
		}
	}
	return 2 * reach * math.Sqrt(float64(hits)/float64(shots))
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// secondCases are clusters and pushes for which both programs are compared: quads, and two and three sizes.
var secondCases = []struct {
	name      string
	diameters []float64
	push      float64
}{
	{"quads", []float64{241, 241, 241, 241}, 0.14},
	{"two sizes", []float64{254, 254, 254, 254, 406, 406}, 0.2},
	{"few large, many small", []float64{114, 114, 114, 114, 114, 114, 114, 114, 406, 406}, 0.2},
	{"one of each", []float64{110, 110, 254, 254, 406, 406}, 0.2},
	{"two of the middle", []float64{110, 110, 254, 254, 254, 254, 406, 406}, 0.2},
	{"one of each, pushed harder", []float64{254, 254, 406, 406, 546, 546}, 0.5},
}

// TestStringsAgainstASecondProgram compares the pitch and the widths of strings with the second program. Strings differ
// by a few percent with their starts, so the mean of several is compared.
func TestStringsAgainstASecondProgram(t *testing.T) {
	if testing.Short() {
		t.Skip("takes more than ten seconds: it computes every pair every time")
	}
	const clusters, starts = 10, 5
	for _, c := range secondCases {
		t.Run(c.name, func(t *testing.T) {
			mean := 0.0
			for _, d := range c.diameters {
				mean += d / float64(len(c.diameters))
			}
			var pitch, width, widest, ours, oursWidth, oursWidest float64
			for seed := range uint64(starts) {
				h := &hill{diameters: c.diameters, clusters: clusters, push: c.push * mean, length: clusters * 4 * 546,
					rng: rand.New(rand.NewPCG(seed, 1953))}
				h.start(clusters * len(c.diameters))
				h.descend(2500)
				pitch += h.length / clusters / starts
				seen, most := h.look(4000)
				width += seen / starts
				widest += most / starts
				rest, err := softsphere.Pushed(c.diameters, clusters, c.push, seed+1)
				require.NoError(t, err)
				ours += rest.PitchMM() / starts
				oursWidth += rest.WidthMM() / starts
				oursWidest += rest.WidestMM() / starts
			}
			t.Logf("pitch %.1f and %.1f, width %.1f and %.1f, widest %.1f and %.1f mm", pitch, ours, width,
				oursWidth, widest, oursWidest)
			assert.InEpsilon(t, pitch, ours, 0.04, "pitch")
			assert.InEpsilon(t, width, oursWidth, 0.02, "visible width")
			assert.InEpsilon(t, widest, oursWidest, 0.1, "largest width: the place of a single balloon")
		})
	}
}

// TestFreeClustersAgainstASecondProgram compares the sphere that holds a free cluster and its mean silhouette with the
// second program, which starts eight times. Where two large balloons lie among small ones, they may lie opposite each
// other or at an angle, with nearly the same energy. Then its starts differ too, and the sphere must be one of theirs.
func TestFreeClustersAgainstASecondProgram(t *testing.T) {
	if testing.Short() {
		t.Skip("takes more than ten seconds: it computes every pair every time")
	}
	for _, c := range secondCases {
		t.Run(c.name, func(t *testing.T) {
			least, seen, smallest, largest := math.Inf(1), 0.0, math.Inf(1), 0.0
			for seed := range uint64(8) {
				h := &hill{diameters: c.diameters, rng: rand.New(rand.NewPCG(seed, 1954))}
				h.start(len(c.diameters))
				h.descend(8000)
				ball := h.hold()
				smallest, largest = min(smallest, ball), max(largest, ball)
				if energy := h.whole(); energy < least {
					least, seen = energy, h.silhouette(100_000)
				}
			}
			free, err := softsphere.Free(c.diameters)
			require.NoError(t, err)
			t.Logf("ball %.1f to %.1f and %.1f, seen %.1f and %.1f mm", smallest, largest, free.BallMM(), seen,
				free.SeenMM())
			assert.GreaterOrEqual(t, free.BallMM(), 0.99*smallest, "sphere that holds it")
			assert.LessOrEqual(t, free.BallMM(), 1.01*largest, "sphere that holds it")
			assert.InEpsilon(t, seen, free.SeenMM(), 0.02, "mean silhouette")
		})
	}
}
