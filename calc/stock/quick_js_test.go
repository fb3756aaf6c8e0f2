package stock_test

import "time"

// A tenth of a need of 100 000 is already a large job, so in the browser this is
// slack for a busy machine; a quiet one takes about 20 ms.
const quickEnough = 250 * time.Millisecond
