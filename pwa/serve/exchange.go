package serve

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/labstack/echo/v4"
)

// exchange answers a phone on a job's shared log.
func (s *Server) exchange(c echo.Context) error { return s.exchangeLog(c, c.Param("job")) }

// exchangeOwn answers an owner's phone on the job's private log.
func (s *Server) exchangeOwn(c echo.Context) error {
	return s.exchangeLog(c, c.Param("job")+sync.OwnSuffix)
}

func (s *Server) exchangeLog(c echo.Context, log string) error {
	body, err := io.ReadAll(c.Request().Body)
	if err != nil {
		return err
	}
	req, err := sync.DecodeRequest(body)
	if err != nil {
		return err
	}
	session, _ := sessionOf(c)
	resp, err := s.Store.Sync(c.Request().Context(), session, log, req)
	if err != nil {
		return err
	}
	s.noteAcks(c, log, resp)
	return c.JSON(http.StatusOK, resp)
}

// me tells a phone who it is and which jobs it may hold.
func (s *Server) me(c echo.Context) error {
	session, _ := sessionOf(c)
	type jobRow struct {
		ID       string `json:"id"`
		Title    string `json:"title,omitempty"` // for a phone that cannot open the job
		Archived bool   `json:"away,omitempty"`
		Held     int    `json:"held,omitempty"`    // waits for the owner's decision
		Crowded  bool   `json:"crowded,omitempty"` // a link has nearly used up its room

		Epoch    string `json:"e"` // how far the logs go, so that a phone asks only for what it lacks
		Seq      uint64 `json:"s"`
		Hash     string `json:"h"`
		OwnEpoch string `json:"oe,omitempty"`
		OwnSeq   uint64 `json:"os,omitempty"`
		OwnHash  string `json:"oh,omitempty"`
	}
	answer := struct {
		Role    job.Role     `json:"role"`
		Name    string       `json:"name"`
		Link    string       `json:"link,omitempty"`
		Closed  string       `json:"closed,omitempty"`
		Jobs    []jobRow     `json:"jobs"`
		Deleted []deletedRow `json:"deleted,omitempty"`
		Build   string       `json:"build"`
		Full    bool         `json:"full,omitempty"` // the server cannot save anything just now
		Last    bool         `json:"last,omitempty"` // no other device of the owner has access

		Handed *[]sync.HandedLog `json:"handed,omitempty"` // set only if closed, then even if empty
	}{session.Role, session.Name, session.Link, session.Closed, []jobRow{}, nil, s.Shell.Build,
		s.Store.Trouble() != nil, s.lastDevice(session), nil}
	if session.Closed != "" {
		handed, err := s.handed(session)
		if err != nil {
			return err
		}
		answer.Handed = &handed
	} else {
		jobs, err := s.Store.Jobs(session)
		if err != nil {
			return err
		}
		for _, j := range jobs {
			row := jobRow{ID: j.ID, Title: j.Title, Archived: j.Archived,
				Epoch: j.Shared.Epoch, Seq: j.Shared.Seq, Hash: j.Shared.Hash}
			if session.Role == job.Owner {
				row.Crowded = j.Crowded
				row.Held, row.OwnEpoch, row.OwnSeq, row.OwnHash = j.Waiting, j.Own.Epoch, j.Own.Seq, j.Own.Hash
			}
			answer.Jobs = append(answer.Jobs, row)
		}
		if answer.Deleted, err = s.deletedRows(session); err != nil {
			return err
		}
	}
	return c.JSON(http.StatusOK, answer)
}

// handed returns the state of the logs that a closed session may still send to. It leaves out the job of a link: the
// link's phone knows it, and nobody else may.
func (s *Server) handed(session store.Session) ([]sync.HandedLog, error) {
	handed, err := s.Store.Handed(session)
	if handed == nil {
		handed = []sync.HandedLog{}
	}
	for i := range handed {
		if handed[i].Log == session.Job {
			handed[i].Log = ""
		}
	}
	return handed, err
}

// events streams that a job has news, but not the news itself. It ends when the server stops, the phone disconnects or
// the session is closed.
func (s *Server) events(c echo.Context) error {
	session, _ := sessionOf(c)
	id := c.Param("job")
	if !sees(session, id) {
		return errNotFound
	}
	if !s.streams.open(session.ID) {
		return errStreams
	}
	defer s.streams.close(session.ID)
	news, cancel := s.Store.Subscribe(id, session.ID)
	defer cancel()
	stream := newStream(c)
	if err := stream.begin(); err != nil {
		return nil // the phone went away
	}
	ticks, stop := s.Ticker(alive)
	defer stop()
	for {
		var err error
		select {
		case n, open := <-news:
			if !open || !s.stillSees(c, id) {
				return nil
			}
			data, marshalErr := json.Marshal(map[string]uint64{"s": n.Seq})
			if marshalErr != nil {
				return fmt.Errorf("tell news: %w", marshalErr)
			}
			err = stream.send(n.Epoch+"."+fmt.Sprint(n.Seq), "head", string(data))
		case <-ticks:
			if !s.stillSees(c, id) {
				return nil
			}
			err = stream.send("", "still", "{}")
		case <-c.Request().Context().Done():
			return nil
		case <-s.stop:
			return nil
		}
		if err != nil {
			return nil // the phone went away
		}
	}
}

// stillSees reports whether the visitor may still see the job: links end and are revoked while a stream is open.
func (s *Server) stillSees(c echo.Context, id string) bool {
	cookie, err := c.Cookie(s.cookieName())
	if err != nil {
		return false
	}
	session, err := s.Store.Session(cookie.Value)
	return err == nil && sees(session, id)
}
