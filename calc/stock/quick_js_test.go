package stock_test

import "time"

const quickEnough = 250 * time.Millisecond
