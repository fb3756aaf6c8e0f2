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

// pullsEach is how many logs without changes count as one request. They are only read.
const pullsEach = 10

// exchangeTogether syncs several logs of a phone in one request. Each log has its own transaction, so a refused one
// does not undo the others. For rate limits it counts as the requests it replaces.
func (s *Server) exchangeTogether(syncs *limiter) echo.HandlerFunc {
	return func(c echo.Context) error {
		session, _ := sessionOf(c)
		if !syncs.allow(bySession(c), 1) {
			return tooMany(syncs.pause(1))
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
		if further > 0 && !syncs.allow(bySession(c), further) {
			return tooMany(syncs.pause(further))
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

// askedLog is the request for one log, or its error.
type askedLog struct {
	log string
	req sync.Request
	err error
}

// decodeEach decodes the request for each log. Further is how many requests this counts as beyond the first. It takes a
// limited number of logs with changes at once; the others get no answer.
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
