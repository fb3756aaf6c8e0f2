//go:build !race

package stock_test

import "time"

const quickEnough = 50 * time.Millisecond
