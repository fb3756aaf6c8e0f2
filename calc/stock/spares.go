package stock

import (
	"fmt"
	"math"
)

// negligible is the weight, relative to the most likely count's, below which a sum ignores a count. It is far below the
// smallest doubt that callers may ask for.
const negligible = 1e-30

// doubtTolerance is one part in 10^9: a doubt that misses its limit only by rounding counts as met.
const doubtTolerance = 1e-9

// Spares returns the fewest to buy so that at least need of them are good with a certainty of surePct or more. Each
// one, including spares, fails with a probability of failPct. The result is need plus the surePct quantile of the
// negative binomial distribution, exact.
//
// need is 0 to [LargestNeed], failPct 0 to [LargestFailPct], surePct above 0 up to [LargestSurePct]; otherwise it
// returns ErrCount or ErrPercent. Failures are assumed independent: a whole bad bag is not covered.
func Spares(need int, failPct, surePct float64) (buy int, err error) {
	if err := checkCount("need", need); err != nil {
		return 0, err
	}
	if err := checkFailPct(failPct); err != nil {
		return 0, err
	}
	if !(surePct > 0 && surePct <= LargestSurePct) {
		return 0, fmt.Errorf("certainty %g %%: %w, more than 0 up to %g %%", surePct, ErrPercent, LargestSurePct)
	}
	if need == 0 || failPct == 0 {
		return need, nil
	}
	doubt := (100 - surePct) / 100 * (1 + doubtTolerance)
	return need + quantile(newFailures(need, failPct/100), doubt), nil
}

// Sure returns the probability, in percent, that at least need of bought things are good if each fails with a
// probability of failPct: the cumulative binomial distribution. It is 0 if fewer are bought than needed, and 100 if
// nothing fails.
func Sure(need, bought int, failPct float64) (surePct float64, err error) {
	if err := checkCount("need", need); err != nil {
		return 0, err
	}
	// Spares may return more than ten times the need.
	if bought < 0 || bought > 20*LargestNeed {
		return 0, fmt.Errorf("bought %d: %w, 0 to %d", bought, ErrCount, 20*LargestNeed)
	}
	if err := checkFailPct(failPct); err != nil {
		return 0, err
	}
	switch {
	case need > bought:
		return 0, nil
	case need == 0 || failPct == 0:
		return 100, nil
	}
	return 100 * binomialUpTo(bought, bought-need, failPct/100), nil
}

// failures holds the negative binomial weights of the number of failures before the need-th good one, scaled to 1 at
// the most likely number.
type failures struct {
	first   int       // number of failures of weights[0]
	weights []float64 // other numbers are negligible
	total   float64
}

func newFailures(need int, rate float64) failures {
	// Each weight follows from its neighbour: w(k+1) = w(k) rate (need+k)/(k+1). Starting at the most likely number and
	// scaling by the sum, no power or factorial can under- or overflow.
	mode := int(math.Max(0, rate*float64(need-1)/(1-rate)))
	var below []float64
	for k, w := mode, 1.0; k > 0 && w > negligible; k-- {
		w = w * float64(k) / (rate * float64(need+k-1))
		below = append(below, w)
	}
	f := failures{first: mode - len(below), weights: make([]float64, 0, 2*len(below)+64)}
	for i := len(below) - 1; i >= 0; i-- {
		f.weights = append(f.weights, below[i])
	}
	for k, w := mode, 1.0; w > negligible; k++ {
		f.weights = append(f.weights, w)
		w = w * (rate * float64(need+k)) / float64(k+1)
	}
	for _, w := range f.weights {
		f.total += w
	}
	return f
}

// quantile returns the smallest number that is exceeded with at most the probability doubt. It sums from the far end,
// where the numbers are small, so that small doubts keep their digits.
func quantile(f failures, doubt float64) int {
	allowed := doubt * f.total
	beyond := 0.0
	for i := len(f.weights) - 1; i > 0; i-- {
		beyond += f.weights[i]
		if beyond > allowed {
			return f.first + i
		}
	}
	return f.first
}

// binomialUpTo returns the probability of at most failed failures in bought tries. It uses the recurrence of
// newFailures, summed from each end.
func binomialUpTo(bought, failed int, rate float64) float64 {
	odds := rate / (1 - rate)
	mode := min(bought, int(float64(bought+1)*rate))
	within, beyond := 0.0, 0.0
	add := func(k int, w float64) {
		if k <= failed {
			within += w
		} else {
			beyond += w
		}
	}
	add(mode, 1)
	for k, w := mode, 1.0; k > 0 && w > negligible; k-- {
		w = w * float64(k) / (float64(bought-k+1) * odds)
		add(k-1, w)
	}
	for k, w := mode, 1.0; k < bought && w > negligible; k++ {
		w = w * (float64(bought-k) * odds) / float64(k+1)
		add(k+1, w)
	}
	return within / (within + beyond)
}
