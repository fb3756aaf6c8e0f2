package cargo_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cargo"
)

// errand is things to carry, one of each kind, and cars.
type errand struct {
	cars  []float64
	kinds []cargo.Kind
}

// randomErrand has at most three cars and most things. Some things do not go into some cars.
func randomErrand(seed uint64, most int) errand {
	r := rand.New(rand.NewPCG(seed, 5))
	e := errand{}
	for range 1 + r.IntN(3) {
		e.cars = append(e.cars, float64(200+100*r.IntN(15)))
	}
	for range 1 + r.IntN(most) {
		k := cargo.Kind{Count: 1, Rank: r.IntN(cargo.Ranks)}
		litres := float64(20 + r.IntN(700))
		for _, car := range e.cars {
			each := litres
			if litres > car || r.IntN(5) == 0 {
				each = 0
			}
			k.Each = append(k.Each, each)
		}
		e.kinds = append(e.kinds, k)
	}
	return e
}

// brute finds the fewest rounds, then the earliest round for rank 0, then for rank 1, by trying every car and round for
// every thing. It knows nothing of the order in which things are loaded. 0 rounds: impossible.
func (e errand) brute() (latest [cargo.Ranks]int) {
	for _, k := range e.kinds {
		takes := false
		for _, each := range k.Each {
			takes = takes || each > 0
		}
		if !takes {
			return latest
		}
	}
	for rounds := 1; ; rounds++ {
		for first := 1; first <= rounds; first++ {
			for second := 1; second <= rounds; second++ {
				latest = [cargo.Ranks]int{first, second, rounds}
				if e.put(0, make([]float64, rounds*len(e.cars)), latest) {
					return latest
				}
			}
		}
	}
}

func (e errand) put(thing int, full []float64, latest [cargo.Ranks]int) bool {
	if thing == len(e.kinds) {
		return true
	}
	k := e.kinds[thing]
	for trip := range full {
		car := trip % len(e.cars)
		if k.Each[car] > 0 && trip/len(e.cars) < latest[k.Rank] && full[trip]+k.Each[car] <= e.cars[car]+1e-6 {
			full[trip] += k.Each[car]
			if e.put(thing+1, full, latest) {
				return true
			}
			full[trip] -= k.Each[car]
		}
	}
	return false
}

// TestTripsAreTheFewestThereAre compares small errands with every possible one. The bound is equality.
func TestTripsAreTheFewestThereAre(t *testing.T) {
	several := 0
	for seed := range uint64(600) {
		e := randomErrand(seed, 7)
		want := e.brute()
		trips, ok := cargo.Carry(e.cars, e.kinds)
		require.Equal(t, want[2] > 0, ok, "seed %d", seed)
		if !ok {
			continue
		}
		got := checkTrips(t, seed, e, trips)
		for rank := range got {
			assert.LessOrEqual(t, got[rank], want[rank], "seed %d, rank %d", seed, rank)
		}
		rounds := cargo.Rounds(e.cars, e.kinds)
		assert.Equal(t, want[2], rounds, "seed %d", seed)
		if rounds > 1 && len(e.cars) > 1 {
			several++
		}
	}
	assert.Greater(t, several, 60, "errands with several rounds")
}

// checkTrips checks that everything is carried, once, and no car takes too much. It returns the last round of each
// rank.
func checkTrips(t *testing.T, seed uint64, e errand, trips []cargo.Trip) (latest [cargo.Ranks]int) {
	t.Helper()
	carried := make([]int, len(e.kinds))
	for i, trip := range trips {
		litres := 0.0
		for k, n := range trip.Counts {
			carried[k] += n
			litres += float64(n) * e.kinds[k].Each[trip.Car]
			if n > 0 {
				require.Positive(t, e.kinds[k].Each[trip.Car], "seed %d", seed)
				latest[e.kinds[k].Rank] = max(latest[e.kinds[k].Rank], trip.Round)
			}
		}
		require.InDelta(t, litres, trip.Litres, 1e-6, "seed %d", seed)
		require.LessOrEqual(t, litres, e.cars[trip.Car]*(1+1e-6), "seed %d", seed)
		for _, other := range trips[:i] {
			require.False(t, other.Car == trip.Car && other.Round == trip.Round, "seed %d", seed)
			require.LessOrEqual(t, other.Round, trip.Round, "seed %d", seed)
		}
	}
	for k := range e.kinds {
		require.Equal(t, e.kinds[k].Count, carried[k], "seed %d", seed)
	}
	return latest
}

// TestALargerOrAnotherCarNeverTakesMoreRounds tries small errands and ones with hundreds of things, whose lots are
// large.
func TestALargerOrAnotherCarNeverTakesMoreRounds(t *testing.T) {
	for seed := range uint64(100) {
		e := randomErrand(seed, 10)
		r := rand.New(rand.NewPCG(seed, 6))
		for k := range e.kinds {
			if seed%2 == 1 {
				e.kinds[k].Count = 1 + r.IntN(90)
			}
			for car := range e.cars { // everything goes in, if it is not too large
				if e.kinds[k].Each[car] == 0 {
					e.kinds[k].Each[car] = 150 + float64(r.IntN(50))
				}
			}
		}
		before := cargo.Rounds(e.cars, e.kinds)
		trips, ok := cargo.Carry(e.cars, e.kinds)
		require.True(t, ok, "seed %d", seed)
		checkTrips(t, seed, e, trips)
		volume, all := 0.0, 0.0
		for _, litres := range e.cars {
			all += litres
		}
		for _, k := range e.kinds {
			least := math.Inf(1)
			for _, each := range k.Each {
				least = min(least, each)
			}
			volume += float64(k.Count) * least
		}
		assert.GreaterOrEqual(t, float64(before)*all, volume-1e-6, "seed %d", seed)
		for car := range e.cars {
			larger := append([]float64(nil), e.cars...)
			larger[car] += float64(1 + r.IntN(900))
			assert.LessOrEqual(t, cargo.Rounds(larger, e.kinds), before, "seed %d, car %d", seed, car)
		}
		more := append([]float64{float64(150 + r.IntN(900))}, e.cars...)
		kinds := append([]cargo.Kind(nil), e.kinds...)
		for k := range kinds {
			kinds[k].Each = append([]float64{kinds[k].Each[0]}, kinds[k].Each...)
		}
		assert.LessOrEqual(t, cargo.Rounds(more, kinds), before, "seed %d, one car more", seed)
	}
}

// TestFirstTripsBringWhatIsNeededFirst: two musts of 400 litres go before a could of 800, though the could was listed
// first.
func TestFirstTripsBringWhatIsNeededFirst(t *testing.T) {
	trips, ok := cargo.Carry([]float64{800}, []cargo.Kind{
		{Count: 1, Rank: 2, Each: []float64{800}}, {Count: 2, Each: []float64{400}}})
	require.True(t, ok)
	require.Len(t, trips, 2)
	assert.Equal(t, []int{0, 2}, trips[0].Counts)
	assert.Equal(t, []int{1, 0}, trips[1].Counts)
}

// TestASmallCarDoesNotDriveForNothing: the large car fetches the rest alone if that takes no longer.
func TestASmallCarDoesNotDriveForNothing(t *testing.T) {
	trips, ok := cargo.Carry([]float64{300, 1600}, []cargo.Kind{{Count: 20, Each: []float64{150, 150}}})
	require.True(t, ok)
	require.Len(t, trips, 3)
	assert.Equal(t, 1, trips[0].Car)
	assert.Equal(t, 0, trips[1].Car, "as it comes anyway")
	assert.Equal(t, cargo.Trip{Car: 1, Round: 2, Counts: []int{8}, Litres: 1200}, trips[2])
}
