package cargo_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cargo"
)

const (
	jamSeed      = 7
	jamTries     = 3
	jamSteps     = 4000
	jamTolerance = 0.005 // overlap left, in diameters
)

// TestPouredBallsAgainstPushedApartBalls compares the count with a simulation, because the measured voids are those of
// tubes and a car is a box. Balls are placed in the box at random and pushed apart until none overlaps. They are
// frictionless and pack closer than real ones: 0.64 against 0.61 far from walls. The estimate must not exceed the
// simulation and must reach three quarters of it. Sizes at which rows hold more are left out.
func TestPouredBallsAgainstPushedApartBalls(t *testing.T) {
	for _, row := range [][4]float64{
		{1000, 1000, 1000, 400},
		{1000, 1000, 1000, 280},
		{1000, 1000, 1000, 260},
		{1700, 1050, 750, 610},
		{1700, 1050, 750, 400},
		{1700, 1050, 750, 280},
	} {
		box, diameter := [3]float64{row[0], row[1], row[2]}, row[3]
		t.Run(fmt.Sprint(row), func(t *testing.T) {
			answer, err := cargo.Pack(cargo.Space{LengthMM: box[0], WidthMM: box[1], HeightMM: box[2]}, cargo.Load{
				Balls: []cargo.Balls{{"balls", diameter, 1, 0}},
			})
			require.NoError(t, err)
			ours := answer.Shares[0].PerTrip
			most := ours
			for pushApart(most+1, box, diameter) {
				most++
			}
			t.Logf("%d poured, %d pushed apart", ours, most)
			assert.True(t, pushApart(ours, box, diameter), "seed %d: %d balls do not go in", jamSeed, ours)
			assert.GreaterOrEqual(t, float64(ours), 0.75*float64(most), "seed %d", jamSeed)
		})
	}
}

// pushApart reports whether count balls placed in the box can be moved until no two overlap, in a few tries.
func pushApart(count int, box [3]float64, diameter float64) bool {
	for try := range uint64(jamTries) {
		random := rand.New(rand.NewPCG(jamSeed, try))
		places := make([][3]float64, count)
		for i := range places {
			for k := range 3 {
				places[i][k] = diameter/2 + random.Float64()*(box[k]-diameter)
			}
		}
		if relax(places, box, diameter) {
			return true
		}
	}
	return false
}

// relax moves the balls with a little friction, and stops them when they pass the minimum, until the largest overlap is
// within jamTolerance.
func relax(places [][3]float64, box [3]float64, diameter float64) bool {
	speeds, pushes := make([][3]float64, len(places)), make([][3]float64, len(places))
	for range jamSteps {
		if overlaps(places, pushes, box, diameter) < jamTolerance*diameter {
			return true
		}
		power := 0.0
		for i := range places {
			for k := range 3 {
				power += pushes[i][k] * speeds[i][k]
			}
		}
		for i := range places {
			for k := range 3 {
				if power < 0 {
					speeds[i][k] = 0
				}
				speeds[i][k] = 0.99*speeds[i][k] + 0.25*pushes[i][k]
				places[i][k] += 0.25 * speeds[i][k]
			}
		}
	}
	return false
}

// overlaps writes the push on every ball and returns the largest overlap.
func overlaps(places, pushes [][3]float64, box [3]float64, diameter float64) (largest float64) {
	for i, place := range places {
		pushes[i] = [3]float64{}
		for k := range 3 {
			low, high := diameter/2-place[k], place[k]+diameter/2-box[k]
			pushes[i][k] = 2*math.Max(0, low) - 2*math.Max(0, high)
			largest = math.Max(largest, math.Max(low, high))
		}
		for j := range i {
			var apart [3]float64
			square := 0.0
			for k := range 3 {
				apart[k] = place[k] - places[j][k]
				square += apart[k] * apart[k]
			}
			if square >= diameter*diameter || square == 0 {
				continue
			}
			distance := math.Sqrt(square)
			overlap := diameter - distance
			largest = math.Max(largest, overlap)
			for k := range 3 {
				push := overlap / distance * apart[k]
				pushes[i][k] += push
				pushes[j][k] -= push
			}
		}
	}
	return largest
}
