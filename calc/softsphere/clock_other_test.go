//go:build !linux

package softsphere_test

import "time"

// begun is when the tests started.
var begun = time.Now()

// workTime returns the time since the tests started, because there is no better clock here.
func workTime() time.Duration { return time.Since(begun) }
