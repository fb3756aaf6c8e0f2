package serve

import (
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strconv"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"
)

// failure is an error answer: a status, a code for programs and a message for people.
type failure struct {
	status  int
	code    string
	message string
	after   time.Duration // for "too many": how long to wait
}

func (f *failure) Error() string { return f.message }

// The failures that answers share.
var (
	errNotFound = &failure{http.StatusNotFound, "not_found",
		"There is no such page. Nothing was changed. Go back to your jobs.", 0}
	errNotOwner = &failure{errNotFound.status, errNotFound.code, errNotFound.message, 0} // answers the same
	errStranger = &failure{http.StatusUnauthorized, "stranger",
		"This device is not signed in. Open your link again, or ask for a new one.", 0}
	errTooLarge = &failure{http.StatusRequestEntityTooLarge, "too_large",
		"That is too much at once. Nothing was changed. Send less.", 0}
	errKind = &failure{http.StatusUnsupportedMediaType, "kind",
		"Send JSON here (Content-Type: application/json). Nothing was changed.", 0}
	errWrongHost = &failure{http.StatusMisdirectedRequest, "host",
		"This app has another address. Nothing was changed. Open it there.", 0}
	errBadForm = &failure{http.StatusBadRequest, "form",
		"The form arrived incomplete. Nothing was changed. Send it again.", 0}
	errForeign = &failure{http.StatusForbidden, "foreign",
		"This came from another website. Nothing was changed. Open the app and do it there.", 0}
	errClosed = &failure{http.StatusForbidden, "closed", "This link has ended. Nothing was changed. Ask for a new link.",
		0}
	errOwnDevice = &failure{http.StatusForbidden, "own_device",
		"You can’t end the device you are on. Use another device of yours, or garlandry invite --end on the server.",
		0}
	errStreams = &failure{http.StatusTooManyRequests, "streams", "Too many tabs are open. Close one.",
		30 * time.Second}
)

func tooMany(wait time.Duration) error {
	return &failure{http.StatusTooManyRequests, "too_many",
		"Too many requests just now. Nothing was changed. Try again in a moment.", wait}
}

// tooMuch returns the failure of a link that has used up its hourly quota.
func tooMuch(wait time.Duration) *failure {
	return &failure{http.StatusTooManyRequests, "later",
		"This link sent too much in the last hour. This was not saved; try again in " +
			view.Many(int(wait.Minutes())+1, "minute") + ".", wait}
}

// failureOf turns an error into an answer.
func failureOf(err error) *failure {
	var (
		own     *failure
		refused *store.Refused
		field   *job.FieldError
		echoed  *echo.HTTPError
		later   *server.LaterError
	)
	switch {
	case errors.As(err, &own):
		return own
	case errors.Is(err, echo.ErrStatusRequestEntityTooLarge), errors.Is(err, sync.ErrTooLarge):
		return errTooLarge
	case errors.As(err, &later):
		return tooMuch(time.Duration(later.Pause) * time.Millisecond)
	case errors.Is(err, store.ErrLater) && errors.As(err, &refused):
		return tooMuch(refused.Pause)
	case errors.Is(err, store.ErrJobFull) && errors.As(err, &refused):
		return &failure{http.StatusConflict, "full", capital(refused.Why) + ". Nothing was changed.", 0}
	case errors.Is(err, store.ErrForbidden), errors.Is(err, sync.ErrPrivate):
		return &failure{http.StatusForbidden, "forbidden",
			"Your link doesn’t allow this. Nothing was changed. Ask the owner.", 0}
	case errors.Is(err, job.ErrInvalid), errors.Is(err, sync.ErrRequest), errors.As(err, &refused), errors.As(err, &field):
		return &failure{http.StatusBadRequest, "invalid", "Not valid: " + err.Error() + ". Nothing was changed.", 0}
	case errors.Is(err, sync.ErrOther):
		return &failure{http.StatusConflict, "other", sentence(err), 0}
	case errors.Is(err, sync.ErrTooOld), errors.Is(err, sync.ErrTooNew):
		return &failure{http.StatusUpgradeRequired, "update", err.Error(), 0}
	case errors.Is(err, store.ErrClosed):
		return errClosed
	case errors.Is(err, store.ErrJobGone):
		return &failure{http.StatusGone, "job_gone", "This job was deleted for good. Nothing was saved.", 0}
	case errors.Is(err, store.ErrUnknownLink),
		errors.Is(err, store.ErrLinkEnded),
		errors.Is(err, store.ErrLinkRevoked),
		errors.Is(err, store.ErrLinkFull):
		return &failure{http.StatusGone, "link", sentence(err), 0}
	case errors.Is(err, store.ErrPhotosFull):
		return &failure{http.StatusConflict, "full", sentence(err), 0}
	case errors.Is(err, store.ErrPhoto):
		return &failure{http.StatusUnprocessableEntity, "photo", sentence(err), 0}
	case errors.Is(err, store.ErrNotFound):
		return errNotFound
	case errors.Is(err, store.ErrDirectory):
		return &failure{http.StatusInsufficientStorage, "disk",
			"The server can’t write to its disk, so this was not saved. Make room there, then send it again.",
			0}
	case errors.As(err, &echoed):
		return &failure{echoed.Code, strings.ReplaceAll(strings.ToLower(http.StatusText(echoed.Code)), " ", "_"),
			http.StatusText(echoed.Code) + ". Nothing was changed.", 0}
	}
	return &failure{http.StatusInternalServerError, "internal",
		"Something went wrong on the server. What was saved is safe. Try again, or see the server’s log.", 0}
}

func sentence(err error) string { return capital(err.Error()) + "." }

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// answerError renders an error as a page or, under /api, as JSON.
func (s *Server) answerError(err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	f := failureOf(err)
	if f.status >= http.StatusInternalServerError {
		s.Log.Error("request failed", "path", loggedPath(c.Request()), "err", err)
	}
	s.noteFailure(c, f)
	if f.after > 0 {
		c.Response().Header().Set("Retry-After", strconv.Itoa(int(f.after.Seconds()+0.999)))
	}
	if f.final() {
		markForm(c, formRefused)
	}
	if strings.HasPrefix(c.Request().URL.Path, "/api/") {
		err = c.JSON(f.status, map[string]string{"code": f.code, "message": f.message})
	} else {
		err = s.errorPage(c, f)
	}
	if err != nil {
		s.Log.Error("error not shown", "err", err)
	}
}

// recovered returns middleware that turns a panic into an error and logs it with its stack.
func recovered(log *slog.Logger) echo.MiddlewareFunc {
	return middleware.RecoverWithConfig(middleware.RecoverConfig{DisableErrorHandler: true, DisableStackAll: true,
		LogErrorFunc: func(c echo.Context, err error, stack []byte) error {
			log.Error("panic", "path", loggedPath(c.Request()), "value", err.Error(), "stack", string(stack))
			return fmt.Errorf("panic: %w", err)
		}})
}
