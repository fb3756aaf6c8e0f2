package serve

import (
	"strconv"
	"sync"
	"time"

	"garlandry/app/job"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"
	"golang.org/x/time/rate"
)

// limiter is a store of token buckets for echo's rate limiter. Echo's own store reads the machine's clock, counts every
// request as one and has no bound on its memory.
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

// mostKeys bounds the memory that a flood of keys can take.
const mostKeys = 10000

func newLimiter(every rate.Limit, burst int, now func() time.Time) *limiter {
	return &limiter{every: every, burst: burst, now: now, seen: map[string]*bucket{}}
}

// Allow reports whether a request with the key may go ahead now. It implements [middleware.RateLimiterStore].
func (l *limiter) Allow(key string) (bool, error) { return l.allow(key, 1), nil }

// allow is Allow for something that counts as several requests, at most the burst.
func (l *limiter) allow(key string, requests int) bool {
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
	return b.AllowN(now, min(requests, l.burst))
}

// spent reports whether a key would not be allowed one more request now. It counts as none.
func (l *limiter) spent(key string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	b := l.seen[key]
	return b != nil && b.TokensAt(l.now()) < 1
}

// pause returns how long to wait until a number of requests is allowed again.
func (l *limiter) pause(requests int) time.Duration {
	return time.Duration(float64(time.Second) / float64(l.every) * float64(min(requests, l.burst)))
}

// forget drops the keys that were not used for ten minutes, or all of them if that is not enough.
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

// limited limits the rate of requests by a key, such as the address or the session.
func limited(l *limiter, key func(echo.Context) string) echo.MiddlewareFunc {
	return middleware.RateLimiterWithConfig(middleware.RateLimiterConfig{
		Store:               l,
		IdentifierExtractor: func(c echo.Context) (string, error) { return key(c), nil },
		DenyHandler:         func(echo.Context, string, error) error { return tooMany(l.pause(1)) },
	})
}

// bodyLimit returns middleware that refuses larger bodies before reading all of them.
func bodyLimit(bytes int) echo.MiddlewareFunc { return middleware.BodyLimit(limitText(bytes)) }

// bodyLimitOfOthers is a [bodyLimit] for everybody except the owner.
func bodyLimitOfOthers(bytes int) echo.MiddlewareFunc {
	return middleware.BodyLimitWithConfig(middleware.BodyLimitConfig{Limit: limitText(bytes),
		Skipper: func(c echo.Context) bool {
			session, in := sessionOf(c)
			return in && session.Role == job.Owner
		}})
}

func limitText(bytes int) string { return strconv.Itoa(bytes) + "B" }

func byAddress(c echo.Context) string { return c.RealIP() }
