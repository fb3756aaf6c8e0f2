package transport

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/internal/sample"
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/cargo"
)

// anyErrands makes a random job of up to so many pieces made at home, with one or two cars.
func anyErrands(seed uint64, most int) job.Job {
	r := rand.New(rand.NewPCG(seed, 11))
	changes := []job.Change{job.Put("brief", "drive_min", r.IntN(60)),
		job.Put("brief", "carry_mm", 100e3*float64(seed%3)), job.Put("brief", "lift_bags", seed%2)}
	for i := range 1 + r.IntN(4) {
		entity := fmt.Sprint("member/m", i)
		changes = append(changes, job.Put(entity, "name", fmt.Sprint("Person ", i)), job.Put(entity, "drives", true),
			job.Put(entity, "skill", []string{"beginner", "practised"}[r.IntN(2)]))
	}
	for i := range 1 + r.IntN(2) {
		entity := fmt.Sprint("kit/car", i)
		changes = append(changes, job.Put(entity, "kind", "car"), job.Put(entity, "name", fmt.Sprint("Car ", i)),
			job.Put(entity, "order", i), job.Put(entity, "litres", 300+100*r.IntN(30)))
	}
	for i := range 1 + r.IntN(most) {
		values := map[string]any{"recipe": []string{"2x11@9.5", "2x11@10 + 1x18@16", "1x5@4.5 + 2x11@9"}[r.IntN(3)],
			"accents": r.IntN(6), "colours": sample.Shares("coral", 1.0), "built": "home", "order": i,
			"length_mm": 1000 + 500*r.IntN(12), "height_mm": 1500, "count": 1 + r.IntN(4), "each": 6,
			"priority": []string{"must", "should", "could"}[r.IntN(3)]}
		kind := []string{"garland", "column", "tables"}[r.IntN(3)]
		changes = append(changes, sample.Piece(fmt.Sprint("p", i), kind, values)...)
	}
	return sample.Job(changes...)
}

// weighed returns the weigher of a job.
func weighed(j job.Job) *weigher {
	d := count.New(j, count.Kinds())
	p := Plan{Drive: DriveMinutes(d)}
	p.Cars, p.Idle = cars(d)
	return p.weigher(d)
}

// Of few pieces the least estimate is that of every way to make, join or bring each, tried one by one.
func TestTheLeastEstimateOfAllWays(t *testing.T) {
	left, loose := 0, 0
	for seed := range uint64(60) {
		w := weighed(anyErrands(seed, 3))
		least := math.Inf(1)
		var try func(i int, kinds []cargo.Kind, minutes float64)
		try = func(i int, kinds []cargo.Kind, minutes float64) {
			if i == len(w.items) {
				if rounds := max(1, cargo.Rounds(w.litres, kinds)); rounds <= MostLoads {
					least = min(least, float64(rounds-1)*w.trip+minutes/w.hands)
				}
				return
			}
			it := &w.items[i]
			try(i+1, kinds, minutes+it.all)
			if it.meant != nil {
				try(i+1, append(kinds[:len(kinds):len(kinds)], it.meant...), minutes+it.in)
			}
			if it.loose != nil {
				try(i+1, append(kinds[:len(kinds):len(kinds)], it.loose...), minutes+it.inLoose+it.join)
			}
		}
		try(0, nil, 0)
		to, got := w.best(true)
		assert.InDelta(t, least, got, 1e-9, "seed %d", seed)
		if to.left != 0 {
			left++
		}
		if to.loose != 0 {
			loose++
		}
	}
	assert.Greater(t, left, 10, "something is left for the venue")
	assert.Positive(t, loose, "something travels loose")
}

// More litres in a car, or one more car with its driver, never make the least estimate longer.
func TestALargerCarNeverMakesTheEstimateLonger(t *testing.T) {
	less, cars := 0, 0
	for seed := range uint64(150) {
		j := anyErrands(seed, 9)
		_, before := weighed(j).best(true)
		require.False(t, math.IsInf(before, 1), "seed %d", seed)
		litres := j.Kit[0].Litres
		for range 4 {
			litres += 100 + 50*float64(seed%13)
			_, after := weighed(job.Try(j, []job.Change{job.Put("kit/"+j.Kit[0].ID, "litres", litres)})).best(true)
			assert.LessOrEqual(t, after, before+1e-9, "seed %d, %g litres", seed, litres)
			if after < before-1 {
				less++
			}
			before = after
		}
		if len(j.Crew) > len(j.Kit) { // a driver is there already
			_, one := weighed(j).best(true)
			_, more := weighed(job.Try(j, []job.Change{job.Put("kit/more", "kind", "car"),
				job.Put("kit/more", "order", 9),
				job.Put("kit/more", "name", "More"), job.Put("kit/more", "litres", 900)})).best(true)
			assert.LessOrEqual(t, more, one+1e-9, "seed %d, one more car", seed)
			cars++
		}
	}
	assert.Greater(t, cars, 20)
	assert.Greater(t, less, 50)
}

// The plan has as many rounds as the way that was chosen, and never makes more at the venue than without a car.
func TestThePlanGoesTheChosenWay(t *testing.T) {
	for seed := range uint64(100) {
		j := anyErrands(seed, 7)
		w := weighed(j)
		to, least := w.best(true)
		p := New(count.New(j, count.Kinds()))
		if w.rounds(0, 0) == 1 {
			assert.Equal(t, 1, p.Rounds(), "seed %d", seed)
			continue
		}
		assert.InDelta(t, least, w.estimate(to, p.Rounds()), 1e-9, "seed %d", seed)
	}
}
