package serve

import (
	"errors"
	"fmt"
	"net/http"

	"github.com/labstack/echo/v4"
)

// health checks that data can be read and written, and reports the free disk space. If nothing can be written, it
// answers 503 with the reason.
func (s *Server) health(c echo.Context) error {
	if err := s.Store.Ping(); err != nil {
		return errors.Join(errors.New("health"), err)
	}
	room := ""
	if free, known := s.Store.Free(); known {
		room = fmt.Sprintf("room on the disk: %d MB\n", free/1_000_000)
	}
	if err := s.Store.TryWrite(); err != nil {
		s.Log.Error("the disk cannot be written", "err", err)
		return c.String(http.StatusServiceUnavailable, "nothing can be saved: "+reason(err)+"\n"+room)
	}
	return c.String(http.StatusOK, "ok\n"+room)
}

// reason returns the innermost cause of an error, which names no path of the server.
func reason(err error) string {
	for {
		switch wrapped := err.(type) {
		case interface{ Unwrap() error }:
			err = wrapped.Unwrap()
		case interface{ Unwrap() []error }:
			all := wrapped.Unwrap()
			err = all[len(all)-1]
		default:
			return err.Error()
		}
	}
}
