package serve

import (
	"encoding/json"
	"io"
	"net/http"
	"strings"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/labstack/echo/v4"
)

// pullsEach is how many logs with nothing to take in count as one request: they are read, and nothing is flushed.
const pullsEach = 10

// exchangeTogether answers a phone on several logs at once. Each log is a transaction of its own, as if it had been
// asked for alone: what one brings is on disk before the answer goes out, whatever becomes of the others, and a log
// that is refused undoes nothing of them. It counts as the requests it stands in for.
func (s *Server) exchangeTogether(syncs *limiter) echo.HandlerFunc {
	return func(c echo.Context) error {
		session, _ := sessionOf(c)
		if wait := syncs.wait(bySession(c)); wait > 0 {
			return tooMany(wait)
		}
		body, err := io.ReadAll(c.Request().Body)
		if err != nil {
			return err
		}
		batch, err := sync.DecodeBatch(body)
		if err != nil {
			return err
		}
		asked, further := decodeEach(batch)
		if wait := syncs.waitFor(bySession(c), further); further > 0 && wait > 0 {
			return tooMany(wait)
		}
		answer := sync.BatchAnswer{V: sync.WireVersion, Logs: make([]sync.LogAnswer, 0, len(asked))}
		for room := sync.MaxAnswer; len(asked) > 0 && room > 0; asked = asked[1:] {
			one, err := s.answerLog(c, session, asked[0])
			if err != nil {
				return err
			}
			answer.Logs = append(answer.Logs, one)
			room -= len(one.Response)
		}
		return c.JSON(http.StatusOK, answer)
	}
}

// askedLog is what is asked of one log, or why it cannot be.
type askedLog struct {
	log string
	req sync.Request
	err error
}

// decodeEach reads what is asked of each log. It gives how many requests that counts as beyond the one it came in. Of
// the logs that bring something only so many are taken at once; the others stay unanswered.
func decodeEach(batch sync.Batch) (asked []askedLog, further int) {
	pulls, writes := 0, 0
	for _, l := range batch.Logs {
		req, err := sync.DecodeRequest(l.Request)
		if err == nil && req.Writes() {
			if writes == sync.MaxWritten {
				continue
			}
			writes++
		} else {
			pulls++
		}
		asked = append(asked, askedLog{l.Log, req, err})
	}
	return asked, max(0, writes+(pulls+pullsEach-1)/pullsEach-1)
}

// answerLog answers one log. An error means that the whole answer failed.
func (s *Server) answerLog(c echo.Context, session store.Session, asked askedLog) (sync.LogAnswer, error) {
	var resp sync.Response
	err := asked.err
	if err == nil {
		resp, err = s.Store.Sync(c.Request().Context(), session, asked.log, asked.req)
	}
	if err != nil {
		f := failureOf(err)
		if f.status >= http.StatusInternalServerError {
			s.Log.Error("request failed", "path", c.Request().URL.Path, "log", asked.log, "err", err)
		}
		if id := strings.TrimSuffix(asked.log, sync.OwnSuffix); job.ValidID(id) {
			s.noteFailureIn(c, f, id)
		}
		return sync.LogAnswer{Log: asked.log, Status: f.status, Code: f.code, Message: f.message,
			After: int(f.after.Seconds() + 0.999)}, nil
	}
	s.noteAcks(c, asked.log, resp)
	text, err := json.Marshal(resp)
	return sync.LogAnswer{Log: asked.log, Status: http.StatusOK, Response: text}, err
}
