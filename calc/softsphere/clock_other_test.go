//go:build !linux

package softsphere_test

import "time"

// begun is when the tests started.
var begun = time.Now()

// workTime is the time since the tests started, where there is no better clock.
func workTime() time.Duration { return time.Since(begun) }
