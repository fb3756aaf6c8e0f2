package serve

import (
	"net/http"
	"sync"
	"time"

	"garlandry/app/job"

	"github.com/labstack/echo/v4"
	"golang.org/x/time/rate"
)

// limiter holds one token bucket per key and forgets the keys it has not seen for a while.
type limiter struct {
	mu    sync.Mutex
	every rate.Limit
	burst int
	now   func() time.Time
	seen  map[string]*bucket
}

type bucket struct {
	*rate.Limiter
	last time.Time
}

// mostKeys bounds the memory a flood of keys can take.
const mostKeys = 10000

func newLimiter(every rate.Limit, burst int, now func() time.Time) *limiter {
	return &limiter{every: every, burst: burst, now: now, seen: map[string]*bucket{}}
}

// wait is 0 if the key may go ahead now, else how long it should wait.
func (l *limiter) wait(key string) time.Duration { return l.waitFor(key, 1) }

// waitFor is wait for something that counts as so many requests. What counts as more than the limiter ever allows at
// once counts as that.
func (l *limiter) waitFor(key string, requests int) time.Duration {
	requests = min(requests, l.burst)
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	if len(l.seen) >= mostKeys {
		l.forget(now)
	}
	b := l.seen[key]
	if b == nil {
		b = &bucket{Limiter: rate.NewLimiter(l.every, l.burst)}
		l.seen[key] = b
	}
	b.last = now
	if b.AllowN(now, requests) {
		return 0
	}
	return time.Duration(float64(time.Second) / float64(l.every) * float64(requests))
}

func (l *limiter) forget(now time.Time) {
	for key, b := range l.seen {
		if now.Sub(b.last) > 10*time.Minute {
			delete(l.seen, key)
		}
	}
	if len(l.seen) >= mostKeys {
		clear(l.seen)
	}
}

// limited slows down whoever comes too often, by address or by session.
func limited(l *limiter, key func(echo.Context) string) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			if wait := l.wait(key(c)); wait > 0 {
				return tooMany(wait)
			}
			return next(c)
		}
	}
}

// sized refuses bodies over the limit before they are read whole.
func sized(limit int64) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			r := c.Request()
			if r.ContentLength > limit {
				return errTooLarge
			}
			r.Body = http.MaxBytesReader(c.Response(), r.Body, limit)
			return next(c)
		}
	}
}

// ownersSize holds everybody but the owner to a smaller size.
func ownersSize(smaller echo.MiddlewareFunc) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		small := smaller(next)
		return func(c echo.Context) error {
			if session, in := sessionOf(c); in && session.Role == job.Owner {
				return next(c)
			}
			return small(c)
		}
	}
}

func byAddress(c echo.Context) string { return c.RealIP() }
