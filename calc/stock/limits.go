package stock

import (
	"fmt"
)

// Limits of the inputs. Larger values are probably typing errors.
const (
	LargestNeed     = 100_000     // things needed, bought or shared out
	LargestFailPct  = 90.0        // share that fails
	LargestSurePct  = 99.9999     // certainty asked for
	MostWeights     = 1_000       // shares of one split
	MostBagKinds    = 100         // kinds of bag on offer
	LargestPriceCts = 100_000_000 // price of one bag, in cents
)

// Reasons why a purchase cannot be computed, for errors.Is. The error's text names the input, the value and the allowed
// range.
var (
	ErrCount   error = reason("count out of range")
	ErrPercent error = reason("percentage out of range")
	ErrWeight  error = reason("unusable weight")
	ErrBag     error = reason("unusable bag")
	ErrNoBags  error = reason("no bags on offer")
)

// reason is a constant error.
type reason string

func (r reason) Error() string { return string(r) }

func checkCount(name string, count int) error {
	if count < 0 || count > LargestNeed {
		return fmt.Errorf("%s %d: %w, 0 to %d", name, count, ErrCount, LargestNeed)
	}
	return nil
}

func checkFailPct(failPct float64) error {
	if !(failPct >= 0 && failPct <= LargestFailPct) {
		return fmt.Errorf("failure rate %g %%: %w, 0 to %g %%", failPct, ErrPercent, LargestFailPct)
	}
	return nil
}
