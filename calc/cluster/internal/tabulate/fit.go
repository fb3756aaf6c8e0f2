package main

import (
	"math"

	"garlandry/calc/cluster/internal/table"
)

// sample is a relaxed cluster: its groups, and one of its sizes in largest diameters.
type sample struct {
	groups []table.Group
	size   float64
}

const (
	sweeps = 2000  // of the fit over all steps
	below  = 0.999 // of the steepest growth, for what rounding adds
)

// fit returns the growth that is nearest to the samples by least squares of relative errors, and at least least. The
// samples of one size weigh as much as all others together, times their weight. A growth never falls. It never grows so
// steeply that a cluster shrinks when its largest balloons grow, because the smaller ones then count less.
func fit(samples []sample, quarters int, weight, least float64) table.Growth {
	alike := 0
	for _, s := range samples {
		if len(s.groups) == 1 {
			alike++
		}
	}
	weights, shares := make([]float64, len(samples)), make([][table.MostDuplets]float64, len(samples))
	for i, s := range samples {
		weights[i] = weight / float64(max(len(samples)-alike, 1))
		if len(s.groups) == 1 {
			weights[i] = 1 / float64(alike)
		}
		duplets := table.Counted(s.groups, quarters)
		for step := range shares[i] {
			shares[i][step] = 1 / s.size
			if step > 0 {
				shares[i][step] *= min(max(duplets-float64(step), 0), 1)
			}
		}
	}
	var steps [table.MostDuplets]float64
	for range sweeps {
		for k := range steps {
			up, square := 0.0, 0.0
			for i := range samples {
				left := 1.0
				for step, share := range shares[i] {
					if step != k {
						left -= float64(share * steps[step])
					}
				}
				up += float64(weights[i] * shares[i][k] * left)
				square += float64(weights[i] * shares[i][k] * shares[i][k])
			}
			steps[k] = up / square
			if k == 0 {
				steps[k] = max(steps[k], least)
				continue
			}
			steps[k] = min(max(steps[k], 0), steepest(steps[:k], quarters))
		}
	}
	return sums(steps, quarters)
}

// sums adds up the steps of a growth, none of them too steep.
func sums(steps [table.MostDuplets]float64, quarters int) (g table.Growth) {
	sum := 0.0
	for k, step := range steps {
		if k > 0 {
			steps[k] = min(step, steepest(steps[:k], quarters))
		}
		sum += steps[k]
		g[k] = math.Round(sum*1e4) / 1e4
	}
	return g
}

// steepest returns the largest step after these. If the smaller balloons of a cluster count as m duplets beside n
// largest ones, a growth f and a power p, then x f(n + m/x^p) rises with x if p m f' is at most f. That is strictest
// for one largest duplet at the end of the step.
func steepest(before []float64, quarters int) float64 {
	sum := 0.0
	for _, step := range before {
		sum += step
	}
	strict := float64(float64(quarters)/4*float64(len(before))) - 1
	if strict <= 0 {
		return math.Inf(1)
	}
	return below * sum / strict
}
