package serve

import (
	"errors"
	"garlandry/app/forecast"
	"io"
	"log/slog"
	"net/http"
	"net/url"
	"strings"
	"time"

	"garlandry/app/plan"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/shell"

	"github.com/labstack/echo/v4"
	"golang.org/x/time/rate"
)

// Config is what a server needs. Every field without a comment is required.
type Config struct {
	Store        *store.Store
	Shell        *shell.Shell
	Log          *slog.Logger
	Now          func() time.Time
	NewID        func() string
	Version      string
	BaseURL      string   // "https://balloons.example"; empty: links use the address of the visitor's connection
	Addresses    []string // where the app can be opened, this machine's own first and what phones reach last; may be empty
	TLS          bool     // this server speaks TLS itself
	Gallery      bool     // show every view with sample data under /dev/gallery
	RetireWorker bool     // serve a service worker that removes itself
	Proxies      []string // addresses or networks of proxies whose X-Forwarded-For to trust; empty: none
	// Security is the security log; nil: the one in the store's directory.
	Security *seclog.Log

	// OwnName reports whether the server's certificate is for a host name; nil: no name.
	OwnName func(host string) bool

	// Ticker ticks at an interval until stopped, for the heartbeat of event streams; nil: the machine's clock.
	Ticker func(every time.Duration) (ticks <-chan time.Time, stop func())
}

// CheckAddresses returns an error for an invalid base URL or proxy address. Both may be empty.
func CheckAddresses(baseURL string, proxies []string) error {
	if baseURL != "" {
		u, err := url.Parse(baseURL)
		if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" || strings.Trim(u.Path, "/") != "" ||
			u.RawQuery != "" ||
			u.Fragment != "" ||
			u.User != nil {
			return errors.New(`the base URL must be like "https://balloons.example", without a path`)
		}
	}
	_, err := addressExtractor(proxies)
	return err
}

// Server answers requests. Make it with [New].
type Server struct {
	Config
	echo       *echo.Echo
	plans      plan.Cache
	clocks     forecast.Cache
	relaxer    relaxer
	rows       rowCache
	covers     covers
	said       said
	streams    *streamCount
	typed      *limiter // tries of short codes, of all visitors together
	wrongLooks *limiter // clients' links that opened nothing, by address
	looks      *limiter // clients' pages, by address
	secure     bool     // cookies and transport rules of https
	host       string   // the only host name of this app; "": any
	stop       chan struct{}
}

// New returns a server, or an error for an invalid base URL or proxy address.
func New(c Config) (*Server, error) {
	if c.Store == nil || c.Shell == nil || c.Log == nil || c.Now == nil || c.NewID == nil {
		return nil, errors.New("serve: store, shell, log, clock and ids are all needed")
	}
	if err := CheckAddresses(c.BaseURL, c.Proxies); err != nil {
		return nil, err
	}
	if c.Security == nil {
		c.Security = seclog.Open(c.Store.Dir(), func() int64 { return c.Now().UnixMilli() }, tellSecurity(c.Log))
	}
	if c.Ticker == nil {
		c.Ticker = realTicker
	}
	s := &Server{Config: c, echo: echo.New(), streams: newStreamCount(), secure: c.TLS, stop: make(chan struct{})}
	if c.BaseURL != "" {
		u, err := url.Parse(c.BaseURL)
		if err != nil {
			return nil, err
		}
		s.secure = u.Scheme == "https"
		s.host = u.Host
		s.BaseURL = u.Scheme + "://" + u.Host
	}
	extract, err := addressExtractor(c.Proxies)
	if err != nil {
		return nil, err
	}
	s.clocks.AtOnce = true
	s.rows.rows.Size, s.covers.drawn.Size = rowCacheSize, rowCacheSize
	s.typed = newLimiter(2, 60, c.Now) // see store.TypedCode
	s.wrongLooks, s.looks = newLimiter(rate.Every(2*time.Second), 15, c.Now), newLimiter(10, 60, c.Now)
	e := s.echo
	e.HideBanner, e.HidePort = true, true
	e.Logger.SetOutput(io.Discard) // slog is the log
	e.IPExtractor = extract
	e.HTTPErrorHandler = s.answerError
	// An owner's phone pulls both logs of every job each time it wakes, and every tap is a form. The limits are far above
	// what people do and far below what would slow the server. The clock of a big job takes long to compute.
	s.routes(e, newLimiter(rate.Every(2*time.Second), 15, c.Now), newLimiter(10, 60, c.Now), newLimiter(10, 60, c.Now),
		newLimiter(1, 20, c.Now))
	return s, nil
}

// Handler returns the whole server as a handler.
func (s *Server) Handler() http.Handler { return headAsGet(s.echo) }

// Stop ends the event streams, so a graceful shutdown does not wait for them, and finishes the security log. Call it
// once.
func (s *Server) Stop() {
	close(s.stop)
	s.covers.work.Wait()
	s.Security.Flush()
}
