//go:build race

package stock_test

import "time"

// The race detector slows the loop about tenfold.
const quickEnough = 500 * time.Millisecond
