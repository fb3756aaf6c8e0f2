//go:build !race && !js

package stock_test

import "time"

const quickEnough = 50 * time.Millisecond
